import { must } from '../../time/index.ts';

/**
 * What is not exceeded with a probability, of numbers in order of size: the least of them that so large a share does not
 * exceed. Source: Hyndman and Fan, The American Statistician 50(4), 1996, definition 1.
 *
 * @throws Error where there are no numbers
 */
export function quantile(sorted: Float64Array, probability: number): number {
  return at(sorted, Math.max(0, Math.ceil(probability * sorted.length) - 1));
}

/** A number of a row that has it. */
export function at(numbers: Float64Array, index: number): number {
  return must(numbers[index], 'a number of a row');
}
