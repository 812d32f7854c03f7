import { z } from 'zod';

/** What a screen in the room says of itself. */
export const roomWordSchema = z.discriminatedUnion('kind', [
  /** It has been opened, and knows nothing yet. */
  z.strictObject({ kind: z.literal('hello') }),
  z.strictObject({ kind: z.literal('here'), start: z.number(), seconds: z.number(), refused: z.boolean() }),
  /** The clip that was started as the so-manieth has come to its end. */
  z.strictObject({ kind: z.literal('clip-over'), start: z.number() }),
]);
export type RoomWord = z.infer<typeof roomWordSchema>;
