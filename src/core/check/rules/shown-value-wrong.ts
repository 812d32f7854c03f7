import { rule } from '../rule.ts';
import { replaceIn } from '../sample.ts';
import { valuesWrong } from './value-wrong.ts';

const shows = (text: string) =>
  replaceIn('recordings/chain.yaml', 'people:', `shows:\n  - {at: "0:06:20", text: ${text}}\npeople:`);

export default rule({
  id: 'shown-value-wrong',
  severity: 'warning',
  why: 'Somebody who reads the value off the picture would set one that is not in the spec table.',
  bad: shows('80 N·m'),
  says: '17:75 at 0:06:20 "80 N·m" is shown, but axle-nut is 98 ± 5 N·m: 13 N·m too little',
  good: shows('98 N·m'),

  lesson: (shop) => valuesWrong(shop, 'shown'),
});
