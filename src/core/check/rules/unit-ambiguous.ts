import { replaceIn, SOUND } from '../sample.ts';
import { quantityRule } from './quantity-rule.ts';

export default quantityRule('unit-ambiguous', {
  why: 'Two units share this name; the wrong one of them can be far off.',
  bad: replaceIn('specs/tarn-420.yaml', 'unit: N·m', 'unit: pounds'),
  says: '13:11 axle-nut: "pounds" does not say pounds of what',
  good: SOUND,
});
