import { replaceIn, SOUND } from '../sample.ts';
import { quantityRule } from './quantity-rule.ts';

export default quantityRule('value-missing', {
  why: 'The row says nothing that could be shown.',
  bad: replaceIn('specs/tarn-420.yaml', '    min: 30\n    max: 40\n', ''),
  says: '17:5 chain-slack: the quantity has no number',
  good: SOUND,
});
