/**
 * Pitches of metric threads, mm, by diameter, mm; the coarse one first. Source: ISO 261, the sizes of its first and
 * second choice and those of its third that workshops meet; from memory.
 */
export const METRIC_PITCHES: Readonly<Record<string, readonly number[]>> = {
  '1.6': [0.35, 0.2],
  '2': [0.4, 0.25],
  '2.5': [0.45, 0.35],
  '3': [0.5, 0.35],
  '3.5': [0.6, 0.35],
  '4': [0.7, 0.5],
  '5': [0.8, 0.5],
  '6': [1, 0.75],
  '7': [1, 0.75],
  '8': [1.25, 1, 0.75],
  '9': [1.25, 1, 0.75],
  '10': [1.5, 1.25, 1, 0.75],
  '11': [1.5, 1, 0.75],
  '12': [1.75, 1.5, 1.25, 1],
  '14': [2, 1.5, 1.25, 1],
  '16': [2, 1.5, 1],
  '18': [2.5, 2, 1.5, 1],
  '20': [2.5, 2, 1.5, 1],
  '22': [2.5, 2, 1.5, 1],
  '24': [3, 2, 1.5, 1],
  '27': [3, 2, 1.5, 1],
  '30': [3.5, 3, 2, 1.5, 1],
  '33': [3.5, 3, 2, 1.5],
  '36': [4, 3, 2, 1.5],
};

/** Threads an inch, coarse and fine, by nominal size. Source: ASME B1.1, UNC and UNF; from memory. */
export const UNIFIED_SERIES: Readonly<Record<string, readonly [coarse: number, fine: number]>> = {
  '4': [40, 48],
  '5': [40, 44],
  '6': [32, 40],
  '8': [32, 36],
  '10': [24, 32],
  '12': [24, 28],
  '1/4': [20, 28],
  '5/16': [18, 24],
  '3/8': [16, 24],
  '7/16': [14, 20],
  '1/2': [13, 20],
  '9/16': [12, 18],
  '5/8': [11, 18],
  '3/4': [10, 16],
  '7/8': [9, 14],
  '1': [8, 12],
};
/** Series of one pitch at many sizes, and the extra fine one. Source: ASME B1.1; from memory. */
const FURTHER_PER_INCH: ReadonlySet<number> = new Set([4, 6, 8, 12, 14, 16, 18, 20, 24, 28, 32]);

/**
 * What the standard lists for the diameter of a thread where its pitch is not among it: mostly a slip, now and then a
 * thread of a maker's own.
 *
 * @param size as `parseThread` reads it, or a designation
 * @returns in words; nothing where the pitch is listed, left out, or of a diameter that is not in the tables
 */
export function pitchesListedInstead(size: string): string | undefined {
  const metric = /^\s*M\s*(\d+(?:\.\d+)?)\s*[×x*]\s*(\d+(?:\.\d+)?)/i.exec(size);
  if (metric) {
    const listed = METRIC_PITCHES[String(Number(metric[1]))];
    if (!listed || listed.includes(Number(metric[2]))) return undefined;
    return `ISO 261 has M${Number(metric[1])} with ${oneOf(listed)} mm`;
  }
  const inch = /^\s*(\d+(?:\/\d+)?)["″]?\s*-\s*(\d+)(?:\s*UN\w*)?\s*$/i.exec(size);
  const series = inch?.[1] === undefined ? undefined : UNIFIED_SERIES[inch[1]];
  if (!inch || !series) return undefined;
  const count = Number(inch[2]);
  if (series.includes(count) || FURTHER_PER_INCH.has(count)) return undefined;
  return `ASME B1.1 has ${inch[1]} with ${oneOf(series)} threads an inch`;
}

function oneOf(values: readonly number[]): string {
  return values.length < 2 ? values.join('') : `${values.slice(0, -1).join(', ')} or ${values.at(-1)}`;
}
