import { chain } from './chain.ts';
import { frontBrake } from './front-brake.ts';
import type { Shoot } from './scene.ts';

export { chain, frontBrake };
/** Every recording of the demo. */
export const SHOOTS: readonly Shoot[] = [chain, frontBrake];
