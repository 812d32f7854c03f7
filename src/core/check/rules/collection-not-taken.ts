import { placeOf } from '../../model/index.ts';
import { rule } from '../rule.ts';
import { both } from '../sample.ts';
import { KEY, published, shared } from './shared-sample.ts';

export default rule({
  id: 'collection-not-taken',
  severity: 'warning',
  why: 'A newer version may correct a value or take one back, and until it is taken the old one is shown.',
  bad: both(shared(`    key: ${KEY}\n`), { files: published('1.1.0') }),
  says: '2:5 tarn-values 1.1.0 has been fetched and is not taken; 1.0.0 is in use',
  good: shared(`    key: ${KEY}\n`),

  *around({ collections }) {
    for (const { name, version, at } of collections.waiting) {
      const lock = collections.uses?.[at]?.lock;
      yield {
        place: placeOf(collections, 'uses', at),
        message: `${name} ${version} has been fetched and is not taken; ${lock ? `${lock.version} is in use` : 'none is in use'}`,
        help: `liftside collections update ${name} tells what is to be chosen`,
      };
    }
  },
});
