import { join } from 'node:path';
import { EncodedPacketSink } from 'mediabunny';
import { cameraInput, type Job, type StillPlan, stillMoment } from '../../core/media/index.ts';
import { openMedia } from './camera-formats.ts';
import { runFfmpeg } from './ffmpeg.ts';
import { fingerprint } from './fingerprint.ts';
import { gatherKeyPictures } from './key-pictures.ts';
import type { Workplace } from './pool.ts';

/** A picture to be taken out of a file, by the name its taker gives it. */
export interface StillWanted extends StillPlan {
  readonly name: string;
  /** Absolute path of the film. */
  readonly path: string;
}

/** A key picture this long before the wanted moment, s, will do: what lies between need not be decoded then. */
const NEAR = 15;

interface Lacking {
  readonly still: StillWanted;
  /** Absolute path that it is kept at. */
  readonly to: string;
}

/**
 * Takes pictures out of films, or finds them among those taken before.
 *
 * @returns absolute path of each picture by its name
 * @throws OutsideFailure when a film cannot be read
 */
export async function takeStills(wanted: readonly StillWanted[], place: Workplace): Promise<Map<string, string>> {
  const made = new Map<string, string>();
  for (const path of new Set(wanted.map((still) => still.path))) {
    const ofFile = wanted.filter((still) => still.path === path);
    const content = await fingerprint(path);
    const lacking: Lacking[] = [];
    for (const still of ofFile) {
      const to = place.store.path(jobOf(still, content), place.tools.version, 'jpg');
      made.set(still.name, to);
      if (!(await place.store.has(to))) lacking.push({ still, to });
    }
    if (lacking.length > 0) await takeFrom(path, lacking, place);
  }
  return made;
}

function jobOf({ path, from, to, width }: StillWanted, content: string): Job {
  return { task: 'still', inputs: [{ path, content }], params: { from, to, width, form: 1 } };
}

/** From the key picture before its moment where that lies in its stretch, else from the moment itself. */
async function takeFrom(path: string, lacking: readonly Lacking[], place: Workplace): Promise<void> {
  const keys = await keyMoments(
    path,
    lacking.map(({ still }) => still),
  );
  const keyed = lacking.flatMap((each, i) => {
    const from = keys[i];
    return from === undefined ? [] : [{ ...each, from }];
  });
  for (const width of new Set(keyed.map(({ still }) => still.width))) {
    const ofWidth = keyed.filter(({ still }) => still.width === width);
    const film = place.store.temporary('mp4');
    await gatherKeyPictures(
      ofWidth.map(({ from }) => ({ path, from })),
      film,
      place.signal,
    );
    await take(cameraInput(film), ofWidth, place);
  }
  for (const [i, each] of lacking.entries())
    if (keys[i] === undefined)
      await take(['-ss', stillMoment(each.still).toFixed(6), ...cameraInput(path)], [each], place);
}

/** The key picture for each still, s; nothing where none lies in its stretch and near its moment. */
async function keyMoments(path: string, stills: readonly StillWanted[]): Promise<(number | undefined)[]> {
  const input = openMedia(path);
  try {
    const [track] = await input.getVideoTracks();
    const sink = track && new EncodedPacketSink(track);
    const moments: (number | undefined)[] = [];
    for (const still of stills) {
      const moment = stillMoment(still);
      const key = await sink?.getKeyPacket(moment, { metadataOnly: true });
      moments.push(key && key.timestamp >= still.from && key.timestamp > moment - NEAR ? key.timestamp : undefined);
    }
    return moments;
  } finally {
    input.dispose();
  }
}

/** Writes as many pictures as are wanted from the start of an input on. All are of one width. */
async function take(input: readonly string[], lacking: readonly Lacking[], place: Workplace): Promise<void> {
  const folder = await place.store.temporaryFolder();
  const width = lacking[0]?.still.width ?? 0;
  await runFfmpeg(
    place.tools,
    [
      ...[...input, '-an', '-fps_mode', 'passthrough', '-frames:v', String(lacking.length)],
      // Pixels are made square first: a browser takes them for that.
      ...['-vf', `scale=trunc(iw*sar/2)*2:ih,scale=w=min(${width}\\,iw):h=-2`],
      ...['-q:v', '4', '-f', 'image2', join(folder, '%d.jpg')],
    ],
    { signal: place.signal },
  );
  for (const [i, { to }] of lacking.entries()) await place.store.keep(join(folder, `${i + 1}.jpg`), to);
}
