import { placeOf } from '../../model/index.ts';
import type { QuantityFault } from '../../spec/index.ts';
import { type Rule, rule } from '../rule.ts';

/** A rule that tells one kind of fault which reading a row's numbers and units has found. */
export function quantityRule(fault: QuantityFault, rest: Pick<Rule, 'why' | 'bad' | 'says' | 'good'>): Rule {
  return rule({
    id: fault,
    severity: 'error',
    ...rest,
    *check({ machines }) {
      for (const { specs } of machines)
        for (const spec of specs)
          for (const { fault: found, path, problem, help } of spec.problems)
            if (found === fault) yield { place: placeOf(spec, ...path), message: `${spec.id}: ${problem}`, help };
    },
  });
}
