import { replaceIn, SOUND } from '../sample.ts';
import { quantityRule } from './quantity-rule.ts';

export default quantityRule('value-impossible', {
  why: 'No such value exists, so a figure or a sign has slipped.',
  bad: replaceIn('specs/tarn-420.yaml', 'nominal: 98\n    plusMinus: 5', 'nominal: -98'),
  says: '11:14 axle-nut: a torque of -98',
  good: SOUND,
});
