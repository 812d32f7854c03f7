import { replaceIn, SOUND } from '../sample.ts';
import { quantityRule } from './quantity-rule.ts';

export default quantityRule('unit-unknown', {
  why: 'A unit nobody knows cannot be converted, and will be guessed.',
  bad: replaceIn('specs/tarn-420.yaml', 'unit: mm', 'unit: millimoters'),
  says: '22:11 chain-slack: no unit "millimoters"',
  good: SOUND,
});
