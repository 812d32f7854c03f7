import { compile, JSONPathError } from 'json-p3';
import { z } from 'zod';
import type { Diagnostic } from '../model/index.ts';
import { Points, readYaml } from '../read/index.ts';

const path = z
  .string()
  .superRefine((text, context) => {
    const problem = pathProblem(text);
    if (problem !== undefined) context.addIssue({ code: 'custom', message: problem });
  })
  .meta({ description: 'A JSONPath (RFC 9535)' });

/** What a mapping file says: how a JSON that another program wrote tells a transcript. */
const mappingSchema = z
  .strictObject({
    entries: path.meta({ description: 'All entries of the transcript, in the whole file' }),
    start: path.meta({ description: 'In an entry, when it begins' }),
    end: path.optional().meta({ description: 'In an entry, when it ends' }),
    length: path.optional().meta({ description: 'In an entry, in place of end: how long it lasts' }),
    text: path.meta({ description: 'In an entry, what is said' }),
    unit: z.enum(['seconds', 'milliseconds', 'clock']).meta({ description: 'Of its times; clock: 0:01:02.5 as text' }),
    words: z
      .strictObject({
        each: path.meta({ description: 'In an entry, all of its words' }),
        start: path.meta({ description: 'In a word, when it begins' }),
        end: path.optional(),
        length: path.optional(),
        text: path,
      })
      .optional()
      .meta({ description: 'Where words have times of their own' }),
  })
  .meta({ description: 'How a JSON transcript of another program is read' });

export type TranscriptMapping = z.infer<typeof mappingSchema>;

/** A mapping as read: the value, or what is wrong with it, with places. */
export interface MappingRead {
  readonly mapping?: TranscriptMapping;
  readonly diagnostics: readonly Diagnostic[];
  /** Line of a key such as `start` or `words/text`, from 1. */
  lineOf(key: string): number;
}

/**
 * Reads a mapping file.
 *
 * @param file its name, for messages
 */
export function readTranscriptMapping(file: string, text: string): MappingRead {
  const { value, origin, diagnostics } = readYaml(text, new Points(file, text), 0, mappingSchema, 'a mapping');
  const sound = value !== undefined && !diagnostics.some(({ severity }) => severity === 'error');
  return {
    ...(sound && { mapping: value }),
    diagnostics,
    lineOf: (key) => (origin.places.get(key) ?? origin.place).start.line,
  };
}

/** Why a text is no JSONPath; nothing where it is one. */
function pathProblem(text: string): string | undefined {
  try {
    compile(text);
    return undefined;
  } catch (error) {
    if (!(error instanceof JSONPathError)) throw error;
    const at = error.token.index + 1;
    const said = error.message.replace(/ \('.*$/s, '');
    return `it is no JSONPath (RFC 9535): ${said}, at character ${at}; one reads like $.results[*] or $['start time']`;
  }
}
