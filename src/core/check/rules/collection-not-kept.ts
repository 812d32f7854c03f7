import { placeOf } from '../../model/index.ts';
import { rule } from '../rule.ts';
import { KEY, shared } from './shared-sample.ts';

export default rule({
  id: 'collection-not-kept',
  severity: 'warning',
  why: 'Without what was published nobody can be told from whom a value comes, nor what this shop has changed.',
  bad: shared(`    key: ${KEY}\n`, ['collections/tarn-values/1.0.0/collection.yaml']),
  says: '2:5 tarn-values 1.0.0 is in use and is not in collections/tarn-values/1.0.0',
  good: shared(`    key: ${KEY}\n`),

  *around({ collections }) {
    for (const [index, { name, lock }] of (collections.uses ?? []).entries()) {
      if (collections.kept.some((one) => one.name === name)) continue;
      if (!lock && collections.waiting.some((one) => one.name === name)) continue;
      yield {
        place: placeOf(collections, 'uses', index),
        message: lock
          ? `${name} ${lock.version} is in use and is not in collections/${name}/${lock.version}`
          : `${name} has not been fetched yet`,
        help: lock
          ? 'bring the folder back from where the content is kept; liftside collections update fetches it where it is still the newest'
          : 'liftside collections update fetches it',
      };
    }
  },
});
