import type { Machine, Spec } from '../../model/index.ts';
import { type Amount, type Part, parseThread, partsOf } from '../../spec/index.ts';

/** A value that a row's own should be near. */
export interface Neighbour {
  readonly part: Part;
  /** In words, such as `its former value` or `rear-sprocket-nut on the same fastener`. */
  readonly name: string;
}

/** Former values of a row, the rows of its id before it in the table, and the first other row on the same fastener. */
export function neighboursOf(spec: Spec, { specs }: Machine): readonly Neighbour[] {
  const former = spec.former.flatMap(({ quantity, until }) =>
    (quantity ? partsOf(quantity) : []).slice(0, 1).map((part) => ({ part, name: `its former value until ${until}` })),
  );
  const beside = specs
    .slice(0, specs.indexOf(spec))
    .filter(({ id }) => id === spec.id)
    .flatMap((row) => firstPart(row, 'the row before it'));
  const fastener = fastenerOf(spec);
  const alike = fastener
    ? specs.filter((row) => row.id !== spec.id && fastenerOf(row) === fastener).flatMap((row) => firstPart(row, row.id))
    : [];
  return [
    ...beside,
    ...former,
    ...alike.slice(0, 1).map(({ part, name }) => ({ part, name: `${name} on the same fastener` })),
  ];
}

function firstPart({ quantity }: Spec, name: string): Neighbour[] {
  return (quantity ? partsOf(quantity) : []).slice(0, 1).map((part) => ({ part, name }));
}

/** Size and class in one way of writing; nothing where one of them is not known. */
function fastenerOf({ written: { fastener, kind } }: Spec): string | undefined {
  if (kind !== 'torque' || fastener?.class === undefined) return undefined;
  const thread = parseThread(fastener.size);
  return thread.ok ? `${thread.value.name} ${fastener.class}` : undefined;
}

/** What an amount is about: its nominal value, the middle of its limits, or the one limit it has. */
export function middleOf({ nominal, min, max }: Amount): number | undefined {
  return nominal ?? (min !== undefined && max !== undefined ? (min + max) / 2 : (min ?? max));
}
