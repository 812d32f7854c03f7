import { z } from 'zod';
import { clock, day, hoursMinutes, id, text } from './common.ts';

const positive = z.number().positive();
const some = z.number().nonnegative();

/** Minutes as one number, or as least, likely, most. */
export const minutes = z
  .union(
    [
      some,
      z
        .tuple([some, some, some])
        .refine(
          ([least, likely, most]) => least <= likely && likely <= most,
          'least, likely, most go from small to large',
        ),
    ],
    { error: 'minutes are one number, or three from small to large: [least, likely, most]' },
  )
  .meta({ description: 'One number, or [least, likely, most]' });

/** Part of a lesson: all of it, a chapter, or a run of steps. */
export const lessonPart = z.strictObject({
  lesson: id,
  chapter: id.optional(),
  from: id.optional().meta({ description: 'First step' }),
  to: id.optional().meta({ description: 'Last step' }),
  speed: z.number().min(0.5).max(3).optional().meta({ description: 'Playback speed; 1 when left out' }),
});

const stations = z
  .strictObject({
    count: z.number().int().positive(),
    group: z.number().int().positive().meta({ description: 'Attendees at a station at a time' }),
    minutes: minutes.meta({ description: 'For one group at one station' }),
    visit: z
      .enum(['one', 'every'])
      .optional()
      .meta({ description: 'Each attendee works at one station, as when left out, or at every one in turn' }),
    change: some.optional().meta({ description: 'Minutes to change over from one group to the next' }),
    meanwhile: text.optional().meta({ description: 'What those do who wait for their turn' }),
  })
  .meta({ description: 'Hands-on: the time follows from the attendees' });

const treatment = z
  .strictObject({
    id,
    title: text.optional(),
    worth: z.number().int().min(0).max(100).meta({ description: 'What it is worth to the attendees, 0 to 100' }),
    minutes: minutes.optional().meta({ description: 'Left out for what is on screen: taken from the programme' }),
    show: lessonPart.optional().meta({ description: 'On screen' }),
    stations: stations.optional(),
    seated: z.boolean().optional().meta({ description: 'Attendees sit; true for what is on screen when left out' }),
  })
  .refine(({ minutes, show, stations }) => minutes !== undefined || show !== undefined || stations !== undefined, {
    error: 'a treatment has minutes, shows a part of a lesson, or has stations: one of them tells its time',
  });

const kitUse = z
  .strictObject({
    tool: id.optional(),
    part: id.optional(),
    supply: id.optional(),
    protective: id.optional(),
    count: z.number().int().positive().optional(),
    per: z
      .enum(['class', 'station', 'attendee'])
      .optional()
      .meta({ description: 'What the count is for; the class when left out' }),
  })
  .meta({ description: 'A thing of the kit that the block needs besides what its steps use' });

const block = z.strictObject({
  id,
  title: text,
  kind: z.enum(['welcome', 'safety', 'screen', 'live', 'hands-on', 'questions', 'break', 'food', 'clear-up', 'talk']),
  must: z.boolean().optional().meta({ description: 'May not be left out' }),
  leaveOut: z.boolean().optional().meta({ description: 'Not given this time; it stays written for the next' }),
  give: id.optional().meta({ description: 'The treatment in which it is given, whatever else would fit' }),
  about: lessonPart.optional().meta({ description: 'The part of a lesson it is about, where it is not on screen' }),
  after: z.array(id).optional().meta({ description: 'Blocks that come before it, where they are given' }),
  before: z.array(id).optional().meta({ description: 'Blocks that come after it, where they are given' }),
  needs: z.array(id).optional().meta({ description: 'Given only when these are given too' }),
  together: z.array(id).optional().meta({ description: 'These and it are given together or not at all' }),
  at: clock.optional().meta({ description: 'Starts at this time of day' }),
  between: z.tuple([clock, clock]).optional().meta({ description: 'Starts within these times of day' }),
  anywhere: z
    .boolean()
    .optional()
    .meta({ description: 'May stand at any place among the others; the rest keep the order written' }),
  presenter: text.optional().meta({ description: 'Role of who gives it' }),
  bay: text.optional().meta({ description: 'Place that only one block at a time can use' }),
  beside: id.optional().meta({ description: 'Runs at the same time as this block' }),
  kit: z.array(kitUse).optional(),
  note: text.optional().meta({ description: 'A line for the run sheet' }),
  treatments: z.array(treatment).min(1, 'a block has at least one treatment'),
});

/** `content/classes/<id>.yaml`: one event. */
export const classSchema = z
  .strictObject({
    title: text,
    summary: text.optional(),
    date: day,
    course: text.optional().meta({ description: 'Title of the course that it is one Saturday of: the same in each' }),
    presupposes: z
      .array(id)
      .optional()
      .meta({ description: 'Ids of earlier classes that attendees have been to, or know what they taught' }),
    starts: clock,
    slot: hoursMinutes.meta({ description: 'The time the class may take, h:mm' }),
    buffer: z.number().nonnegative().optional().meta({ description: 'Minutes to keep free at the end' }),
    place: text.optional(),
    map: z.url().optional(),
    attendees: z.number().int().positive().optional().meta({ description: 'Expected' }),
    capacity: z.number().int().positive().optional(),
    bring: z.array(text).optional().meta({ description: 'What attendees should bring' }),
    people: z.array(z.strictObject({ role: text, name: text.optional() })).optional(),
    limits: z
      .strictObject({
        screenMinutes: positive.optional().meta({ description: 'Longest time on screen without a break' }),
        seatedMinutes: positive.optional().meta({ description: 'Longest time seated without a break' }),
        breakMinutes: positive.optional().meta({
          description: 'A block without screen or sitting counts as a break from so many minutes; 5 when left out',
        }),
        handsOnShare: z
          .number()
          .min(0)
          .max(1)
          .optional()
          .meta({ description: 'Least share of the class that is hands-on' }),
      })
      .optional(),
    blocks: z.array(block).min(1, 'a class has at least one block'),
  })
  .meta({ id: 'class', description: 'A class' });
