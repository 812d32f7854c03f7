import { replaceIn, SOUND } from '../sample.ts';
import { quantityRule } from './quantity-rule.ts';

export default quantityRule('tolerance-written-twice', {
  why: 'Two tolerances for one value: nobody knows which one counts.',
  bad: replaceIn('specs/tarn-420.yaml', 'plusMinus: 5', 'plusMinus: 5\n    plus: 3'),
  says: '12:16 axle-nut: the tolerance is written in two ways',
  good: SOUND,
});
