/** Samples from the first, half-open. */
type Span = [start: number, end: number];

export function whereToListen(samples: Float32Array, window: number): Span[];
export function inWhole(found: readonly Readonly<Span>[], spans: readonly Readonly<Span>[]): Span[];
