export type StarterKind = 'lesson' | 'recording' | 'class' | 'machine' | 'kit' | 'words';

/** Ids of what is there already, for a starting file to name. */
export interface KnownIds {
  readonly machine?: string;
  readonly recording?: string;
  readonly lesson?: string;
}

interface Starter {
  /** Below the content folder; a kind of which a shop has one file names that. */
  readonly folder: string;
  readonly ending: string;
  readonly file?: string;
  text(id: string, known?: KnownIds): string;
}

/**
 * Commented starting files. They attest nothing and hold no figure that could be taken for one of the shop's: where
 * somebody has to write stands FILL IN, which `check` refuses until it is replaced.
 */
export const STARTERS: Readonly<Record<StarterKind, Starter>> = {
  recording: {
    folder: 'recordings',
    ending: '.yaml',
    text: (id) => `# One continuous take, as far as time goes: its camera files in shooting order.
title: FILL IN what was recorded
files:
  - file: media/${id}.mp4            # counted from the content folder
# start: "01:00:00;00"              # timecode of the first frame, if the camera wrote one
# captions: media/${id}.vtt          # WebVTT or SRT, in the time of the recording
# edit:                             # what stays; left out, everything does
#   - {in: "0:00:10", out: "0:12:44.5"}   # out is the first frame not kept
people:
  - {role: instructor, release: missing}   # on-file once the signed release is there
`,
  },
  words: {
    folder: '.',
    ending: '.yaml',
    file: 'words.yaml',
    text: () => `# What people call the things of the trade. Search finds a step or a spec by any of these names.
words:
  - say: FILL IN                    # the name that lessons and spec table use
    also: [FILL IN]                 # other names, and slips that are words of their own
#   meaning: what it is, in one sentence
# skip: [bitte, wie]                # words of questions that say nothing; English ones are known
`,
  },
  lesson: {
    folder: 'lessons',
    ending: '.mdx',
    text: (id, { recording = id, machine = 'FILL IN' } = {}) => `---
title: FILL IN what is done
recording: ${recording}          # id of a file in recordings/
machine: ${machine}          # id of a file in specs/
summary: FILL IN what one can do after this lesson
---

FILL IN what this lesson is about, in two sentences. The service manual for your own model and year comes first.

## FILL IN the first chapter
<Cue at="FILL IN" />

### FILL IN the first step
<Cue at="FILL IN" />
{/* A cue is a time of the recording: at="0:03:10", and until="0:05:20" where the step ends early. */}
{/* What the step takes: <Uses tool="…" />, part, supply or protective, each by its id in kit.yaml. */}
FILL IN what to do. {/* A value is never written by hand; it is cited: <Spec of="…" /> with its id in the spec table */}

<KeyPoint why="FILL IN the reason">FILL IN what makes or breaks the step.</KeyPoint>
{/* <Danger>, <Warning>, <Caution> and <Notice> in their defined meanings. */}
`,
  },
  machine: {
    folder: 'specs',
    ending: '.yaml',
    text: () => `# The spec table of a machine. A row without a source is an error: nobody could look it up.
machine:
  title: FILL IN the model
  years: FILL IN                    # 2019-2025, 2022- or 2021
documents:
  manual:
    title: FILL IN the title on its cover
    edition: FILL IN                # as printed; leave the line out where there is none
    date: FILL IN                   # YYYY-MM-DD, as printed; leave the line out where there is none
specs:
  - id: first-value                 # small letters, digits and hyphens; lessons cite it
    title: FILL IN what it is
    kind: FILL IN                   # torque, length, pressure, volume, mass, temperature, angle, interval, torque-sequence, …
    nominal: FILL IN                # the figure in the source; or min, or max, or both
    plusMinus: FILL IN              # its tolerance; or plus and minus
    unit: FILL IN                   # as the source has it: N·m, lbf·ft, mm, in, kPa, …
    # critical: true                # a wrong value here can hurt someone
    source: { document: manual, section: FILL IN, page: FILL IN }
    # The person who has compared the row with its source writes down who they are, and when:
    # checkedBy: a role, such as lead mechanic
    # checkedOn: YYYY-MM-DD
`,
  },
  kit: {
    folder: '.',
    ending: '.yaml',
    file: 'kit.yaml',
    text: () => `# What the shop has: tools with what they can do, parts, supplies, protective equipment. Lessons name it by id.
tools:
  first-tool:                       # small letters, digits and hyphens
    title: FILL IN what it is called here
    # count: how many there are
    # A torque wrench is compared with the values it is meant for, once its range is known:
    # kind: torque-wrench
    # range: { min: FILL IN, max: FILL IN, unit: N·m }
    # resolution: { nominal: FILL IN, unit: N·m }
# parts, supplies and protective stand below in the same way:
# protective:
#   eye-protection: { title: Eye protection, count: FILL IN }
`,
  },
  class: {
    folder: 'classes',
    ending: '.yaml',
    text: (
      id,
      { lesson = 'my-lesson' } = {},
    ) => `# One event: its slot, and the blocks that may fill it. liftside fit ${id} chooses the treatments.
title: FILL IN
date: FILL IN                       # YYYY-MM-DD
starts: FILL IN                     # "10:00", 24 hours, in quotes
slot: FILL IN                       # "2:00", hours and minutes, in quotes
# buffer: minutes to keep free; 5 when left out
# attendees: how many are expected
blocks:
  - id: welcome
    title: Welcome
    kind: welcome
    must: true                      # may not be left out
    treatments:
      - { id: round, worth: FILL IN, minutes: FILL IN }   # worth: 0 to 100; minutes: [least, likely, most]
# What is on screen takes its time from the programme:
#  - id: first
#    title: First chapter
#    kind: screen
#    treatments:
#      - {id: whole, worth: 60, show: {lesson: ${lesson}, chapter: first-chapter}}
`,
  },
};
