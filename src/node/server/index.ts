export { type CuttingRoomOptions, cuttingRoom } from './integration.ts';
