import { isUtf8 } from 'node:buffer';
import { readFile } from 'node:fs/promises';
import { type FileFacts, idSchema, type Shop } from '../../../core/model/index.ts';
import { insideFolder } from '../../files/index.ts';
import type { Room } from '../room.ts';
import { refusal, route } from '../route.ts';

/** Everything the page starts with: all content texts, what is known of the footage, the lessons of the recording. */
export default route({
  method: 'GET',
  path: 'api/open/',
  async handle({ url }, room) {
    const id = url.searchParams.get('recording') ?? '';
    // Links that lead out of the folder are not read, so what they lead to is not among them.
    const { shop, texts } = await room.load();
    if (!idSchema.safeParse(id).success || !texts.has(`recordings/${id}.yaml`))
      return refusal(
        404,
        `there is no recording "${id}"`,
        `there are: ${shop.recordings.map((r) => r.id).join(', ') || 'none yet'}`,
      );
    return {
      json: {
        recordingFile: `recordings/${id}.yaml`,
        lessonFiles: lessonFiles(id, texts),
        texts: { ...Object.fromEntries(texts), ...(await captionTexts(id, shop, room)) },
        facts: Object.fromEntries(factsOf(shop)),
        machines: shop.machines.map((machine) => machine.id),
        today: room.now().toISOString().slice(0, 10),
      },
    };
  },
});

/** The recording's WebVTT captions, which are changed on the page; as bytes say it, and only where they are UTF-8. */
async function captionTexts(id: string, { recordings }: Shop, { content }: Room): Promise<Record<string, string>> {
  const captions = recordings.find((one) => one.id === id)?.captions;
  if (captions?.facts.state !== 'text' || !/\.vtt$/i.test(captions.file)) return {};
  const inside = insideFolder(content, captions.file);
  const bytes = inside.ok ? await readFile(inside.path).catch(() => undefined) : undefined;
  return bytes && isUtf8(bytes) ? { [captions.file]: bytes.toString('utf8') } : {};
}

/** Lessons that show the recording, also those that cannot be read any further than that; cues are set in no translation. */
function lessonFiles(id: string, texts: ReadonlyMap<string, string>): string[] {
  const names = new RegExp(`^recording:[ \\t]*["']?${id}["']?[ \\t]*(#.*)?$`, 'm');
  return [...texts]
    .filter(([file, text]) => /^lessons\/[^/.]+\.mdx$/.test(file) && names.test(text))
    .map(([file]) => file);
}

/** What is known of every file a recording names. */
export function factsOf({ recordings }: Shop): Map<string, FileFacts> {
  const facts = new Map<string, FileFacts>();
  for (const { files, angles, captions } of recordings) {
    for (const { file, facts: known } of [...files, ...angles]) facts.set(file, known);
    if (captions) facts.set(captions.file, captions.facts);
  }
  return facts;
}
