/** A distribution of time on a grid: `chance[i]` that it is `from + i * step`, s. */
export interface Spread {
  readonly from: number;
  readonly step: number;
  readonly chance: Float64Array;
}

/** A time that is certain. */
export function point(seconds: number, step: number): Spread {
  return { from: seconds, step, chance: Float64Array.of(1) };
}

/** Sum of two independent times on one step. */
export function sum(a: Spread, b: Spread): Spread {
  if (a.chance.length === 1) return { ...b, from: a.from + b.from };
  if (b.chance.length === 1) return { ...a, from: a.from + b.from };
  const chance = new Float64Array(a.chance.length + b.chance.length - 1);
  a.chance.forEach((p, i) => {
    if (p === 0) return;
    for (let j = 0; j < b.chance.length; j++) chance[i + j] = (chance[i + j] ?? 0) + p * (b.chance[j] ?? 0);
  });
  return { from: a.from + b.from, step: a.step, chance };
}

/** The later of two independent times. */
export function later(a: Spread, b: Spread): Spread {
  const from = Math.min(a.from, b.from);
  const [x, y] = [onGrid(a, from), onGrid(b, from)];
  const chance = new Float64Array(Math.max(x.length, y.length));
  let below = 0;
  let [fx, fy] = [0, 0];
  for (let i = 0; i < chance.length; i++) {
    fx += x[i] ?? 0;
    fy += y[i] ?? 0;
    chance[i] = fx * fy - below;
    below = fx * fy;
  }
  return { from, step: a.step, chance };
}

/** Not before a moment: what would be earlier waits for it. */
export function notBefore(spread: Spread, moment: number): Spread {
  if (spread.from >= moment) return spread;
  const chance = [0];
  spread.chance.forEach((p, i) => {
    split(chance, Math.max(0, spread.from + i * spread.step - moment) / spread.step, p);
  });
  return { from: moment, step: spread.step, chance: Float64Array.from(chance) };
}

/** Chances on a grid from `from` on, each shared between its two neighbours so that the mean stays. */
function onGrid(spread: Spread, from: number): Float64Array {
  const chance: number[] = [];
  spread.chance.forEach((p, i) => {
    split(chance, (spread.from - from) / spread.step + i, p);
  });
  return Float64Array.from(chance, (p) => p ?? 0);
}

function split(chance: number[], at: number, p: number): void {
  const low = Math.floor(at + 1e-9);
  const high = at - low;
  while (chance.length <= low + 1) chance.push(0);
  chance[low] = (chance[low] ?? 0) + p * (1 - high);
  chance[low + 1] = (chance[low + 1] ?? 0) + p * high;
}
