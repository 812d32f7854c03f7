import { type Place, placeOf } from '../../model/index.ts';
import { rule } from '../rule.ts';

const words = (rows: string) => ({ files: { 'words.yaml': `words:\n${rows}` } });

export default rule({
  id: 'word-twice',
  severity: 'warning',
  why: 'Search takes a name for one thing: of two that share it, one is not found by it.',
  bad: words('  - {say: disc, also: [plate]}\n  - {say: link plate, also: [plate]}\n'),
  says: '3:30 "plate" is a name of "disc" and of "link plate"',
  good: words('  - {say: disc, also: [rotor]}\n  - {say: link plate, also: [plate]}\n'),

  *around({ words }) {
    const owners = new Map<string, { say: string; place: Place }>();
    for (const [index, { say, also }] of (words.words ?? []).entries())
      for (const [at, name] of also.entries()) {
        const place = placeOf(words, 'words', index, 'also', at);
        const key = name.toLowerCase();
        const owner = owners.get(key);
        if (owner)
          yield {
            place,
            message: `"${name}" is a name of "${owner.say}" and of "${say}"`,
            help: 'leave it with the one that people mean by it',
            see: { place: owner.place, note: 'named first here' },
          };
        else owners.set(key, { say, place });
      }
  },
});
