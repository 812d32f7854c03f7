import { constants, copyFile, cp, mkdir, readdir, readFile, writeFile } from 'node:fs/promises';
import { basename, join, resolve } from 'node:path';

const DEMO = resolve(import.meta.dirname, '../../content');

/**
 * A library of many lessons: the demo's, again and again under other names, each with a recording and captions of its own.
 *
 * @param to an empty folder
 * @param machines the demo's machine under so many names, by turns
 * @param languages of its pages
 * @returns how many steps it has
 */
export async function writeLargeLibrary(to: string, lessons: number, machines = 1, languages = 'en'): Promise<number> {
  for (const folder of ['lessons', 'recordings', 'media', 'specs']) await mkdir(join(to, folder));
  for (const shared of ['kit.yaml', 'words.yaml', 'shop.yaml']) await cp(join(DEMO, shared), join(to, shared));
  const shop = await readFile(join(to, 'shop.yaml'), 'utf8');
  await writeFile(join(to, 'shop.yaml'), shop.replace(/^languages:.*$/m, `languages: [${languages}]`));
  const films = (await readdir(join(DEMO, 'media'))).filter((file) => file.endsWith('.mp4'));
  // A link to a file outside would be refused, as it leads out of the folder.
  for (const film of films)
    await copyFile(join(DEMO, 'media', film), join(to, 'media', film), constants.COPYFILE_FICLONE);
  const table = await readFile(join(DEMO, 'specs/tarn-420.yaml'), 'utf8');
  for (let i = 0; i < machines; i++)
    await writeFile(
      join(to, 'specs', `${machine(i)}.yaml`),
      table.replace('title: Tarn 420', `title: Tarn ${420 + i}`),
    );
  const sources = (await readdir(join(DEMO, 'recordings'))).map((file) => basename(file, '.yaml'));
  let steps = 0;
  for (let i = 0; i < lessons; i++) {
    const source = sources[i % sources.length] ?? '';
    const read = (file: string) => readFile(join(DEMO, file), 'utf8');
    const id = `${source}-${i}`;
    const lesson = await read(`lessons/${source}.mdx`);
    steps += lesson.match(/^### /gm)?.length ?? 0;
    await writeFile(
      join(to, 'lessons', `${id}.mdx`),
      lesson
        .replace(/^title: .*$/m, `$& ${i}`)
        .replace(/^recording: .*$/m, `recording: ${id}`)
        .replace(/^machine: .*$/m, `machine: ${machine(Math.floor(i / sources.length) % machines)}`),
    );
    const recording = await read(`recordings/${source}.yaml`);
    await writeFile(
      join(to, 'recordings', `${id}.yaml`),
      recording.replace(/^captions: .*$/m, `captions: media/${id}.vtt`),
    );
    const captions = await read(`media/${source}.vtt`);
    await writeFile(join(to, 'media', `${id}.vtt`), captions.replace('WEBVTT\n', `WEBVTT\n\nNOTE number ${i}\n`));
  }
  return steps;
}

const machine = (i: number) => `tarn-${420 + i}`;
