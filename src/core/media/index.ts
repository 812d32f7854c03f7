export { factsOf, type MediaDetails, type Picture, type Sound } from './facts.ts';
