import { readdir } from 'node:fs/promises';
import { join } from 'node:path';
import { allTold } from '../../core/check/index.ts';
import type { HeardSpeech } from '../../core/media/index.ts';
import type { Diagnostic } from '../../core/model/index.ts';
import {
  CONTENT_FILES,
  type FilesNamed,
  filesNamedIn,
  furtherLanguages,
  KeptReads,
  readShop,
} from '../../core/read/index.ts';
import {
  bytesAsTheyWere,
  ChangedMeanwhile,
  copySum,
  endBrokenSave,
  type FileSum,
  FileSums,
  factsOnDisk,
  insideFolder,
  privateFolder,
  ReadKeys,
  ReadsOnDisk,
  readContentTexts,
  stampOfFile,
  TextsAsTheyWere,
} from '../files/index.ts';
import { analysisFolder, findSpeech } from '../media/kept-analysis.ts';
import { type CheckKept, loadKept, NOTHING_KEPT, saveKept } from './kept-file.ts';
import { KeptChecks } from './kept-reads.ts';
import { LostPiece } from './pieces.ts';

/** What a check of a content folder has found. */
export interface FolderChecked {
  readonly diagnostics: readonly Diagnostic[];
  /** Every content text, by path relative to the folder. */
  readonly texts: ReadonlyMap<string, string>;
  /** What was put in order before reading, in words. */
  readonly notes: readonly string[];
  /** The sum of each text and caption file that was looked at. */
  readonly sums: ReadonlyMap<string, FileSum>;
}

/** So often a check begins anew because a file was changed under it; after that everything is read. */
const BEGUN = 3;

/**
 * Checks a content folder. What an earlier check has kept in `.liftside/check.kept` and still holds is not worked out
 * again; what is found is what a check from nothing would find.
 *
 * @param content absolute path
 * @param today YYYY-MM-DD
 * @param readNext the folder is read whole afterwards: what lessons come to is kept for that as well
 * @throws when the folder itself cannot be read
 */
export async function checkFolder(content: string, today: string, readNext = false): Promise<FolderChecked> {
  const notes = await endBrokenSave(content);
  const program = copySum();
  const own = await privateFolder(content).catch(() => undefined);
  let kept = loadKept(content, program);
  for (let n = 1; ; n++) {
    const before = n > BEGUN || own === undefined ? { ...kept, files: [] } : kept;
    const sums = own === undefined ? FileSums.uncertain() : await FileSums.open(own, new Map(before.files));
    try {
      const { now, ...checked } = await checkOnce(content, today, before, sums, readNext);
      if (own !== undefined) await saveKept(content, program, now, kept);
      return { ...checked, notes: [...notes, ...checked.notes] };
    } catch (error) {
      // Another check may have put the pieces together anew; else somebody took them away.
      if (error instanceof LostPiece) kept = n === 1 ? loadKept(content, program) : NOTHING_KEPT;
      else if (!(error instanceof ChangedMeanwhile) || n > BEGUN) throw error;
    }
  }
}

async function checkOnce(
  content: string,
  today: string,
  before: CheckKept,
  sums: FileSums,
  readNext: boolean,
): Promise<FolderChecked & { readonly now: CheckKept }> {
  const read = await readContentTexts(content, sums);
  const texts = new TextsAsTheyWere(read.texts, read.unchanged, (file) =>
    bytesAsTheyWere(content, file, sums.sum(file) ?? '').toString('utf8'),
  );
  const yaml = new KeptReads().again();
  const languages = languagesOf(texts, before, sums);
  const named = filesNamedBy(texts, languages.tags, before, sums, yaml);
  const all = [...named.values()];
  const { facts, away } = await factsOnDisk(
    content,
    {
      media: unique(all.flatMap(({ files, angles }) => [...files, ...angles])),
      texts: unique(all.flatMap((each) => each.texts)),
    },
    sums,
  );
  const speech = await speechIn(content, named, before);
  const heard = new Map([...speech].flatMap(([id, { heard }]) => (heard ? [[id, heard] as const] : [])));
  const keys = new ReadKeys(sums);
  const disk = await ReadsOnDisk.open(content, keys, !readNext);
  const checks = new KeptChecks(before, sums, heard, yaml, keys, disk);
  const { shop, diagnostics } = readShop(texts, facts, read.unreadable, checks.recalls);
  const found = allTold(shop, [...diagnostics, ...checks.found(shop, today)], { today, speech: heard });
  const now = {
    files: [...sums.found].toSorted(([a], [b]) => (a < b ? -1 : 1)),
    ...checks.kept,
    languages,
    named: [...named],
    speech: [...speech],
  };
  return { diagnostics: found, texts, notes: away, sums: sums.found, now };
}

/** The further languages of the shop: as kept, where its file has not changed. */
function languagesOf(
  texts: ReadonlyMap<string, string>,
  { languages }: CheckKept,
  sums: FileSums,
): NonNullable<CheckKept['languages']> {
  const key = sums.sum(CONTENT_FILES.shop) ?? '';
  return languages?.key === key ? languages : { key, tags: furtherLanguages(texts) };
}

/** What each recording names: as kept, where neither it nor the languages of the shop have changed. */
function filesNamedBy(
  texts: ReadonlyMap<string, string>,
  languages: readonly string[],
  before: CheckKept,
  sums: FileSums,
  yaml: ReturnType<KeptReads['again']>,
): ReadonlyMap<string, FilesNamed & { readonly key: string }> {
  const kept = new Map(before.named);
  return new Map(
    [...texts.keys()]
      .filter((file) => CONTENT_FILES.recording.test(file))
      .map((file) => {
        const key = `${sums.sum(file)} ${languages.join(' ')}`;
        const known = kept.get(file);
        return [file, known?.key === key ? known : { key, ...filesNamedIn(file, texts, languages, yaml) }];
      }),
  );
}

/** Where somebody is heard in recordings that were looked through: as kept, where neither they nor what was found have changed. */
async function speechIn(
  content: string,
  named: ReadonlyMap<string, FilesNamed>,
  before: CheckKept,
): Promise<ReadonlyMap<string, { readonly key: string; readonly heard?: HeardSpeech }>> {
  const kept = new Map(before.speech);
  const lookedThrough = new Set(await readdir(join(content, '.liftside', 'analysis')).catch(() => []));
  const found = [...named].map(async ([file, { files }]) => {
    const id = CONTENT_FILES.recording.exec(file)?.[1] ?? '';
    if (!lookedThrough.has(id)) return [];
    const cameras = files.map((name) => insideFolder(content, name)).map((inside) => (inside.ok ? inside.path : ''));
    const key = [join(analysisFolder(content, id), 'analysis.json'), ...cameras].map(stampOfFile).join('\n');
    const known = kept.get(id);
    if (known?.key === key) return [[id, known] as const];
    const heard = (await findSpeech(content, [{ id, files: files.map((name) => ({ file: name })) }])).get(id);
    return [[id, { key, ...(heard && { heard }) }] as const];
  });
  return new Map((await Promise.all(found)).flat());
}

function unique(names: readonly string[]): readonly string[] {
  return [...new Set(names)];
}
