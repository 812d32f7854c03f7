import type { Machine, Place, Spec } from '../../model/index.ts';
import { type Amount, type Part, parseThread, partsOf } from '../../spec/index.ts';

/** A value that a row's own should be near. */
export interface Neighbour {
  readonly part: Part;
  /** In words, such as `its former value` or `rear-sprocket-nut on the same fastener`. */
  readonly name: string;
  /** The other row it stands in, as what a finding is built on; none for the row's own former value. */
  readonly builtOn: readonly Place[];
}

/** Former values of a row, the rows of its id before it in the table, and the first other row on the same fastener. */
export function neighboursOf(spec: Spec, machine: Machine): readonly Neighbour[] {
  const { specs } = machine;
  const former = formerParts(spec).map(({ part, until }) => ({
    part,
    name: `its former value until ${until}`,
    builtOn: [],
  }));
  const beside = partsBefore(spec, machine).map((each) => ({ ...each, name: 'the row before it' }));
  const fastener = fastenerOf(spec);
  const alike = fastener
    ? specs
        .filter((row) => row.id !== spec.id && fastenerOf(row) === fastener)
        .flatMap((row) => firstPart(row).map((part) => ({ part, name: row.id, builtOn: [row.origin.place] })))
    : [];
  return [
    ...beside,
    ...former,
    ...alike.slice(0, 1).map((each) => ({ ...each, name: `${each.name} on the same fastener` })),
  ];
}

/** What a row said before, each with its last day. */
export function formerParts({ former }: Spec): { readonly part: Part; readonly until: string }[] {
  return former.flatMap(({ until, ...each }) => firstPart(each).map((part) => ({ part, until })));
}

/** What the rows of the same id say that stand before a row in the table. */
export function partsBefore(spec: Spec, { specs }: Machine): Pick<Neighbour, 'part' | 'builtOn'>[] {
  return specs
    .slice(0, specs.indexOf(spec))
    .filter((row) => row.id === spec.id)
    .flatMap((row) => firstPart(row).map((part) => ({ part, builtOn: [row.origin.place] })));
}

function firstPart({ quantity }: Pick<Spec, 'quantity'>): readonly Part[] {
  return quantity ? partsOf(quantity).slice(0, 1) : [];
}

/** Size and class in one way of writing; nothing where one of them is not known. */
function fastenerOf({ written: { fastener, kind } }: Spec): string | undefined {
  if (kind !== 'torque' || fastener?.class === undefined) return undefined;
  const thread = parseThread(fastener.size);
  return thread.ok ? `${thread.value.name} ${fastener.class}` : undefined;
}

/** The key that a row's value is written under. */
export function keyOf({ written }: Spec): string {
  return (
    (['nominal', 'min', 'max', 'stages', 'distance', 'time'] as const).find((key) => written[key] !== undefined) ??
    'kind'
  );
}

/** What an amount is about: its nominal value, the middle of its limits, or the one limit it has. */
export function middleOf({ nominal, min, max }: Amount): number | undefined {
  return nominal ?? (min !== undefined && max !== undefined ? (min + max) / 2 : (min ?? max));
}
