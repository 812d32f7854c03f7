import { replaceIn, SOUND } from '../sample.ts';
import { quantityRule } from './quantity-rule.ts';

export default quantityRule('nominal-outside-limits', {
  why: 'The value to aim at would itself be out of limits.',
  bad: replaceIn('specs/tarn-420.yaml', 'min: 30', 'nominal: 45\n    min: 30'),
  says: '20:14 chain-slack: nominal 45 lies outside 30 to 40',
  good: SOUND,
});
