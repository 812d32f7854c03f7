// Loaded before a child's own code: its clock is off, and jumps with each look. LIFTSIDE_CLOCK="OFF JUMP", in seconds.
const [off, jump] = (process.env.LIFTSIDE_CLOCK ?? '0 0').split(' ').map((seconds) => Number(seconds) * 1000);
const Real = Date;
const now = Real.now;
let looks = 0;
const shifted = () => now() + off + jump * looks++;
globalThis.Date = new Proxy(Real, {
  construct: (target, words, of) => Reflect.construct(target, words.length === 0 ? [shifted()] : words, of),
  get: (target, name) => (name === 'now' ? shifted : Reflect.get(target, name)),
});
