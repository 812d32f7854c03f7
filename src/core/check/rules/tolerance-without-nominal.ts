import { replaceIn, SOUND } from '../sample.ts';
import { quantityRule } from './quantity-rule.ts';

export default quantityRule('tolerance-without-nominal', {
  why: 'A tolerance needs a nominal value.',
  bad: replaceIn('specs/tarn-420.yaml', '    nominal: 98\n', ''),
  says: '11:16 axle-nut: a tolerance has no nominal value',
  good: SOUND,
});
