import { replaceIn, SOUND } from '../sample.ts';
import { quantityRule } from './quantity-rule.ts';

export default quantityRule('field-of-other-kind', {
  why: 'A key that does not belong to this kind of value is ignored.',
  bad: replaceIn('specs/tarn-420.yaml', 'min: 30', 'distance: {max: 1, unit: km}\n    min: 30'),
  says: '20:15 chain-slack: distance does not belong to kind length',
  good: SOUND,
});
