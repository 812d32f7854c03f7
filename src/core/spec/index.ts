export { type Amount, KINDS, type Kind, type Quantity, SIMPLE_KINDS, type SimpleKind } from './kinds.ts';
