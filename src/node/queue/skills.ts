import { resolve } from 'node:path';
import { findVoice } from '../media/find-voice.ts';
import { findListener } from '../media/listener.ts';
import { findModel } from '../words/find-model.ts';
import { recognisePieces } from '../words/recognise.ts';
import type { Skill } from './connect.ts';
import { type JobKind, jobKind, recogniseParams, streamParts, voiceParams } from './job-kinds.ts';

/**
 * What a machine can do besides what ffmpeg alone can: tell speech from other sound where its library runs, and
 * recognise speech where `LIFTSIDE_MODEL` names a model.
 *
 * @returns what it can do, and in words what it cannot
 */
export async function workerSkills(
  env: Readonly<Record<string, string | undefined>>,
  cwd: string,
): Promise<{ readonly skills: (readonly [Skill, ReadonlyMap<string, JobKind>])[]; readonly lacks: string[] }> {
  const skills: (readonly [Skill, ReadonlyMap<string, JobKind>])[] = [];
  const lacks: string[] = [];
  const listener = await findListener();
  if (listener.ok) {
    const kinds = new Map([['find-voice', jobKind(findVoice(listener.value), voiceParams, streamParts)]]);
    skills.push([{ kind: 'voice', listener: listener.value.name }, kinds]);
  } else lacks.push(`${listener.problem}: ${listener.help}`);
  const { LIFTSIDE_MODEL: named = '' } = env;
  if (named !== '') {
    const model = await findModel({ folder: resolve(cwd, named), by: 'LIFTSIDE_MODEL' });
    if (model.ok) {
      const kinds = new Map([['recognise', jobKind(recognisePieces(model.value), recogniseParams, streamParts)]]);
      skills.push([{ kind: 'speech', model: model.value.fingerprint }, kinds]);
    } else lacks.push(`${model.problem}: ${model.help}`);
  }
  return { skills, lacks };
}
