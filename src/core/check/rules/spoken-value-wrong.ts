import { rule } from '../rule.ts';
import { replaceIn, type Sample } from '../sample.ts';
import { valuesWrong } from './value-wrong.ts';

const captions = (words: string): Sample =>
  replaceIn('media/chain.vtt', '00:06:00.000 --> 00:09:00.000\n[working]', `00:06:12.000 --> 00:09:00.000\n${words}`);

export default rule({
  id: 'spoken-value-wrong',
  severity: 'warning',
  why: 'Somebody who works by ear would set a value that is not in the spec table.',
  bad: captions('torque it to eighty newton metres'),
  says: '17:75 at 0:06:12 "eighty newton metres" is said, but axle-nut is 98 ± 5 N·m: 13 N·m too little',
  good: captions('torque it to seventy-two foot-pounds'),

  lesson: (shop) => valuesWrong(shop, 'said'),
});
