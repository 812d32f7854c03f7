import { z } from 'zod';
import { idSchema } from '../../../core/model/index.ts';
import { WORKS } from '../jobs.ts';
import { refusal, route } from '../route.ts';

const wanted = z.strictObject({ recording: idSchema, work: z.enum(WORKS) });
const ended = z.strictObject({ id: z.number().int() });
const LOAD_AGAIN = 'load the page again';

/** Work that runs, waits or has ended lately. */
export const jobs = route({
  method: 'GET',
  path: 'api/jobs/',
  handle: async (_, room) => ({ json: { jobs: room.jobs.all } }),
});

/** Starts work on a recording; how far it is, every page hears. */
export const startJob = route({
  method: 'POST',
  path: 'api/jobs/',
  async handle({ body }, room) {
    const read = wanted.safeParse(body);
    if (!read.success) return refusal(400, 'which work on which recording is not said', LOAD_AGAIN);
    const { recording, work } = read.data;
    const { texts } = await room.load();
    if (!texts.has(`recordings/${recording}.yaml`))
      return refusal(404, `there is no recording "${recording}"`, LOAD_AGAIN);
    room.jobs.add(recording, work);
    return { json: { jobs: room.jobs.all } };
  },
});

/** Stops work, or takes it out of the row. */
export const stopJob = route({
  method: 'POST',
  path: 'api/jobs/stop/',
  async handle({ body }, room) {
    const read = ended.safeParse(body);
    if (!read.success) return refusal(400, 'which work is not said', LOAD_AGAIN);
    room.jobs.stop(read.data.id);
    return { json: { jobs: room.jobs.all } };
  },
});
