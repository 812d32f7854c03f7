import { readdir, readFile } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import type { Shop } from '../../core/model/index.ts';
import { fail, ok, type Parsed } from '../../core/time/index.ts';
import { findModelKind, MODEL_FILES_WANTED, type SpeechModel } from '../../core/words/index.ts';
import { fileInside } from '../files/inside.ts';
import { fingerprint } from '../media/fingerprint.ts';
import { modelTypeOf } from './onnx-type.ts';

/** A model on this machine. */
export interface FoundModel extends SpeechModel {
  /** Absolute path. */
  readonly folder: string;
  /** Text of its `tokens.txt`. */
  readonly tokens: string;
  /** Changes when any of its files does. */
  readonly fingerprint: string;
}

/** Where a folder with a model may be named, the first that names one counts. */
export interface ModelNamed {
  /** `--model`, from the folder the command was called in. */
  readonly option?: string | undefined;
  readonly cwd: string;
  readonly env: Readonly<Record<string, string | undefined>>;
  /** `speechModel` in `shop.yaml`, inside the content folder. */
  readonly info: Pick<Shop['info'], 'speechModel'>;
  readonly content: string;
}

/** The folder that is named, and by what. */
export function namedModel({
  option,
  cwd,
  env,
  info,
  content,
}: ModelNamed): { folder: string; by: string } | undefined {
  if (option !== undefined) return { folder: resolve(cwd, option), by: '--model' };
  if (env.LIFTSIDE_MODEL) return { folder: resolve(cwd, env.LIFTSIDE_MODEL), by: 'LIFTSIDE_MODEL' };
  if (info.speechModel) return { folder: fileInside(content, info.speechModel), by: 'speechModel in shop.yaml' };
  return undefined;
}

/** What to do where no model is named. */
export const NO_MODEL = {
  problem: 'no model that recognises speech is named',
  help: `put one in a folder and name that by --model DIR, by LIFTSIDE_MODEL=DIR, or by speechModel: in shop.yaml (a folder inside the content). The folder needs ${MODEL_FILES_WANTED}. Such models are published for many languages, ready for sherpa-onnx; get one whose licence suits you and whose language is yours. Nothing is fetched by Liftside, and no sound leaves this machine. Without a model, --words FILE lays a text that you have on the sound`,
};

/**
 * Looks at the folder of a model.
 *
 * @param language of the speech, such as `en`; empty where the model is to find out
 * @returns the model, or what is missing in the folder
 */
export async function findModel(named: { folder: string; by: string }, language = ''): Promise<Parsed<FoundModel>> {
  const { folder, by } = named;
  const names = await readdir(folder).catch(() => undefined);
  if (!names) return fail(`${by} names ${folder}, which is no folder that can be read`, NO_MODEL.help);
  const files = await Promise.all(
    names.toSorted().map(async (name) => {
      const type = /\.onnx$/i.test(name) ? await modelTypeOf(join(folder, name)) : undefined;
      return { name, ...(type !== undefined && { type }) };
    }),
  );
  const found = findModelKind(files, language);
  if (!found.ok)
    return fail(`${folder} (named by ${by}) holds no model that can be used: ${found.problem}`, found.help);
  const model = found.value;
  const tokens = String(model.settings.tokens);
  const prints = await Promise.all(model.files.map((name) => fingerprint(join(folder, name))));
  const text = await readFile(join(folder, tokens), 'utf8');
  return ok({ ...model, folder, tokens: text, fingerprint: prints.join(' ') });
}
