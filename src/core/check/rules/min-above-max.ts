import { replaceIn, SOUND } from '../sample.ts';
import { quantityRule } from './quantity-rule.ts';

export default quantityRule('min-above-max', {
  why: 'No value can be within both limits, so people will pick one.',
  bad: replaceIn('specs/tarn-420.yaml', 'max: 40', 'max: 20'),
  says: '20:10 chain-slack: min 30 is above max 20',
  good: SOUND,
});
