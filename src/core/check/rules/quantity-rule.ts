import { type Kit, type Place, placeOf } from '../../model/index.ts';
import {
  type QuantityFault,
  type QuantityProblem,
  readAmount,
  SIMPLE_KINDS,
  type SimpleKind,
} from '../../spec/index.ts';
import { type Rule, rule } from '../rule.ts';

/** A rule that tells one kind of fault which reading numbers and units has found, in rows and in the kit. */
export function quantityRule(fault: QuantityFault, rest: Pick<Rule, 'why' | 'bad' | 'says' | 'good'>): Rule {
  const own = ({ fault: found }: QuantityProblem) => found === fault;
  return rule({
    id: fault,
    severity: 'error',
    ...rest,
    *machine({ machines }) {
      for (const { specs } of machines)
        for (const spec of specs)
          for (const { path, problem, help } of spec.problems.filter(own))
            yield { place: placeOf(spec, ...path), message: `${spec.id}: ${problem}`, help };
    },

    *around({ kit }) {
      for (const { place, name, problem, help } of kitProblems(kit).filter(own))
        yield { place, message: `${name}: ${problem}`, help };
    },
  });
}

/** What the amounts of a tool or supply may measure. */
const TOOL_KINDS: Readonly<Record<string, readonly SimpleKind[]>> = {
  'torque-wrench': ['torque'],
  'measuring-tool': SIMPLE_KINDS,
};
const SUPPLY_KINDS: readonly SimpleKind[] = ['volume', 'mass', 'length'];

function kitProblems(kit: Kit): (QuantityProblem & { readonly place: Place; readonly name: string })[] {
  const tools = Object.entries(kit.tools ?? {}).flatMap(([id, tool]) => {
    const kinds = TOOL_KINDS[tool.kind ?? ''] ?? SIMPLE_KINDS;
    return (['range', 'resolution', 'lever', 'extension'] as const).map((key) => ({
      path: ['tools', id, key],
      name: id,
      amount: tool[key],
      kinds: key === 'range' || key === 'resolution' ? kinds : (['length'] as const),
    }));
  });
  const supplies = Object.entries(kit.supplies ?? {}).map(([id, { amount }]) => ({
    path: ['supplies', id, 'amount'],
    name: id,
    amount,
    kinds: SUPPLY_KINDS,
  }));
  return [...tools, ...supplies].flatMap(({ path, name, amount, kinds }) =>
    amount === undefined
      ? []
      : readAmount(amount, kinds, path).problems.map((each) => ({ ...each, name, place: placeOf(kit, ...each.path) })),
  );
}
