import { placeOf } from '../../model/index.ts';
import { didYouMean } from '../../read/index.ts';
import { rule } from '../rule.ts';
import { replaceIn } from '../sample.ts';

const withPresenter = (presenter: string) =>
  replaceIn(
    'classes/saturday.yaml',
    'blocks:\n  - id: welcome\n',
    `people:\n  - {role: instructor, name: Ada}\nblocks:\n  - id: welcome\n    presenter: ${presenter}\n`,
  );

export default rule({
  id: 'presenter-unknown',
  severity: 'error',
  why: 'Nobody knows that they are meant, and the plan may give one person two blocks at once.',
  bad: withPresenter('instructer'),
  says: '9:16 nobody of this class is or is called "instructer"',
  good: withPresenter('instructor'),

  *around({ classes }) {
    for (const shopClass of classes) {
      const people = shopClass.people ?? [];
      const known = people.flatMap(({ role, name }) => (name === undefined ? [role] : [role, name]));
      const told = new Set<string>();
      for (const [index, { presenter }] of shopClass.blocks.entries()) {
        if (presenter === undefined || known.includes(presenter) || told.has(presenter)) continue;
        told.add(presenter);
        yield {
          place: placeOf(shopClass, 'blocks', index, 'presenter'),
          message: `nobody of this class is or is called "${presenter}"`,
          help: didYouMean(presenter, known, `list who it is under people: {role: ${presenter}}`),
        };
      }
    }
  },
});
