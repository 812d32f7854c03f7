export { cuttingRoom } from './integration.ts';
