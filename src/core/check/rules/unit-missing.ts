import { replaceIn, SOUND } from '../sample.ts';
import { quantityRule } from './quantity-rule.ts';

export default quantityRule('unit-missing', {
  why: 'A number without its unit means nothing on a wrench.',
  bad: replaceIn('specs/tarn-420.yaml', '    unit: mm\n', ''),
  says: '17:5 chain-slack: the length has no unit',
  good: SOUND,
});
