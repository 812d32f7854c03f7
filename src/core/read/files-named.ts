import { recordingSchema, shopSchema } from '../model/index.ts';
import { must } from '../time/index.ts';
import { CONTENT_FILES } from './content-files.ts';
import { withoutMark } from './encoding.ts';
import { Points } from './points.ts';
import { fileInLanguage, type RecordingYaml } from './read-recording.ts';
import { readYaml } from './read-yaml.ts';
import { type FileRead, KeptReads, NO_QUESTIONS, type Recall, type Recalls } from './recall.ts';

/** The YAML of a recording, read once for the files it names and for all it says. */
export function recordingYaml(file: string, texts: ReadonlyMap<string, string>, recall: Recall): RecordingYaml {
  const read = (): FileRead<RecordingYaml> => {
    const text = withoutMark(texts.get(file) ?? '');
    const value = readYaml(text, new Points(file, text), 0, recordingSchema, 'a recording');
    return { value, diagnostics: [], broken: [] };
  };
  return must(recall(file, texts, NO_QUESTIONS, read).value, 'what the YAML says');
}

/** Files that a recording names: its own, those of further cameras and recorders, and captions. */
export interface FilesNamed {
  readonly files: readonly string[];
  readonly angles: readonly string[];
  readonly texts: readonly string[];
}

/** Camera files and captions that the content names, to be looked at on disk before reading. */
export function filesNamed(
  texts: ReadonlyMap<string, string>,
  recalls: Recalls = new KeptReads().again(),
): { media: string[]; texts: string[] } {
  const languages = furtherLanguages(texts);
  const named = [...texts.keys()]
    .filter((file) => CONTENT_FILES.recording.test(file))
    .map((file) => filesNamedIn(file, texts, languages, recalls));
  return {
    media: [...new Set(named.flatMap(({ files, angles }) => [...files, ...angles]))],
    texts: [...new Set(named.flatMap(({ texts }) => texts))],
  };
}

/** Those that one recording names. @param languages into which captions may be translated */
export function filesNamedIn(
  file: string,
  texts: ReadonlyMap<string, string>,
  languages: readonly string[],
  recalls: Recalls,
): FilesNamed {
  const { value: written } = recordingYaml(file, texts, recalls.recordings);
  const { files = [], angles = [], captions } = written ?? {};
  return {
    files: files.map(({ file }) => file),
    angles: angles.map(({ file }) => file),
    texts: captions === undefined ? [] : [captions, ...languages.map((language) => fileInLanguage(captions, language))],
  };
}

/** The languages of a shop after its first. */
export function furtherLanguages(texts: ReadonlyMap<string, string>): readonly string[] {
  const text = withoutMark(texts.get(CONTENT_FILES.shop) ?? '');
  const info = readYaml(text, new Points(CONTENT_FILES.shop, text), 0, shopSchema, 'the shop').value;
  return info?.languages?.slice(1) ?? [];
}
