import { type Diagnostic, type FileFacts, type Lesson, lessonSchema, type Recording } from '../model/index.ts';
import { tell } from './faults.ts';
import { frontMatter } from './parse-markdown.ts';
import type { Points } from './points.ts';
import { readBody } from './read-body.ts';
import { labellingOf } from './read-recording.ts';
import { readYaml } from './read-yaml.ts';
import { plural } from './words.ts';

/** A lesson from its MDX; its times are read with the labels of its recording. */
export function readLesson(
  id: string,
  text: string,
  points: Points,
  recordingBy: (id: string) => Recording | undefined,
  facts: (file: string) => FileFacts,
): { lesson?: Lesson; diagnostics: readonly Diagnostic[]; broken?: readonly string[] } {
  const match = frontMatter(text);
  if (!match)
    return {
      diagnostics: [
        tell(
          'key-missing',
          points.place(0, 0),
          'the lesson has no front matter',
          'start the file with ---, title:, recording:, machine:, ---',
        ),
      ],
    };
  const [, open = '', source = ''] = match;
  const front = readYaml(source, points, open.length, lessonSchema, 'a lesson');
  const recording = front.value ? recordingBy(front.value.recording) : undefined;
  const { body, diagnostics: inBody } = readBody(text, points, labellingOf(recording));
  const diagnostics = [...front.diagnostics, ...inBody];
  const [stray, ...strays] = body?.strays ?? [];
  if (stray) {
    const more = strays.length > 0 ? `, and ${plural(strays.length, 'step')} after it` : '';
    const message = `the step "${stray.title}" stands before any chapter${more}`;
    diagnostics.push(tell('step-before-chapter', stray.place, message, 'open a chapter with ## above it'));
  }
  if (!front.value || !body) return { diagnostics, broken: [] };
  const { chapters, intro, opening, notes } = body;
  const pictures = body.pictures.map((picture) => ({ ...picture, facts: facts(picture.file) }));
  for (const { file, facts: known, place } of pictures)
    if (known.state !== 'picture')
      diagnostics.push(
        tell(
          'picture-missing',
          place,
          known.state === 'unreadable'
            ? `the picture ${file} cannot be read: ${known.reason}`
            : `there is no picture ${file}`,
          'put it there, or name the one that is meant; a path starts at the folder of the lesson, such as ../media/nut.jpg',
        ),
      );
  return {
    lesson: { ...front.value, id, origin: front.origin, chapters, intro, opening, notes, pictures },
    diagnostics,
    // A class may name a chapter or step by the heading that was meant.
    broken: stray || diagnostics.some(({ rule }) => rule === 'heading-empty') ? [id] : [],
  };
}
