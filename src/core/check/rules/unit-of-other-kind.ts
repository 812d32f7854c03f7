import { replaceIn, SOUND } from '../sample.ts';
import { quantityRule } from './quantity-rule.ts';

export default quantityRule('unit-of-other-kind', {
  why: 'The value cannot be converted, so the unit or the kind is a slip.',
  bad: replaceIn('specs/tarn-420.yaml', 'unit: N·m', 'unit: kPa'),
  says: '13:11 axle-nut: "kPa" is a unit of pressure, not of torque',
  good: SOUND,
});
