import { minutesOf } from '../../fit/index.ts';
import { placeOf } from '../../model/index.ts';
import { rule } from '../rule.ts';

const took = (starts: string, ends: string) => ({
  files: {
    'classes/saturday.actual.yaml': `date: 2026-12-05\nblocks:\n  - {id: welcome, starts: "${starts}", ends: "${ends}"}\n`,
  },
});

export default rule({
  id: 'actual-times-backwards',
  severity: 'error',
  why: 'The next plan would learn from minutes that never were.',
  bad: took('10:06', '10:00'),
  says: '3:42 "welcome" ends at 10:00, before it starts at 10:06',
  good: took('10:00', '10:06'),

  *around({ actuals }) {
    for (const actual of actuals)
      for (const [index, block] of actual.blocks.entries())
        if (minutesOf(block) === undefined)
          yield {
            place: placeOf(actual, 'blocks', index, 'ends'),
            message: `"${block.id}" ends at ${block.ends}, before it starts at ${block.starts}`,
            help: 'write the times as they were, or minutes in place of both',
          };
  },
});
