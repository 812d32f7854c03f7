export type StarterKind = 'lesson' | 'recording' | 'class' | 'machine';

interface Starter {
  /** Below the content folder. */
  readonly folder: string;
  readonly ending: string;
  text(id: string): string;
}

/** Commented starting files. They read without an error of form; what they name is for the author to fill in. */
export const STARTERS: Readonly<Record<StarterKind, Starter>> = {
  recording: {
    folder: 'recordings',
    ending: '.yaml',
    text: (id) => `# One continuous take, as far as time goes: its camera files in shooting order.
title: ${id}, uncut
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
  lesson: {
    folder: 'lessons',
    ending: '.mdx',
    text: (id) => `---
title: ${id}
recording: ${id}          # id of a file in recordings/
machine: my-machine       # id of a file in specs/
summary: What one can do after this lesson.
---

What this lesson is about, in two sentences. The service manual for your own model and year comes first.

## First chapter
<Cue at="0:00:10" />

### First step
<Cue at="0:00:20" />
{/* What the step takes: <Uses tool="…" />, part, supply or protective, each by its id in kit.yaml. */}
What to do. A value is never written by hand; it is cited: {/* <Spec of="rear-axle-nut" /> */}

<KeyPoint why="the reason">What makes or breaks the step.</KeyPoint>
{/* <Danger>, <Warning>, <Caution> and <Notice> in their defined meanings. */}
`,
  },
  machine: {
    folder: 'specs',
    ending: '.yaml',
    text: (id) => `# The spec table of a machine. A row without a source is an error: nobody could look it up.
machine:
  title: ${id}
  years: 2019-2025
documents:
  manual:
    title: Service manual
    edition: first edition
specs:
  - id: rear-axle-nut
    title: Rear axle nut
    kind: torque                    # length, pressure, volume, mass, temperature, angle, interval, torque-sequence, …
    nominal: 98                     # copy the figure and its tolerance from the manual: this one is only an example
    plusMinus: 5                    # or plus and minus, or min and max
    unit: N·m
    critical: true                  # a wrong value here can hurt someone
    source: {document: manual, section: Rear wheel, page: 41}
    checkedBy: lead mechanic
    checkedOn: 2026-01-31
`,
  },
  class: {
    folder: 'classes',
    ending: '.yaml',
    text: (id) => `# One event: its slot, and the blocks that may fill it. liftside fit ${id} chooses the treatments.
title: ${id}
date: 2027-01-30
starts: "10:00"
slot: "2:00"                        # h:mm
buffer: 5                           # minutes to keep free
attendees: 8
blocks:
  - id: welcome
    title: Welcome
    kind: welcome
    must: true                      # may not be left out
    treatments:
      - {id: round, worth: 20, minutes: [3, 5, 8]}   # least, likely, most
  - id: questions
    title: Questions
    kind: questions
    treatments:
      - {id: long, worth: 40, minutes: [8, 10, 15]}
      - {id: short, worth: 25, minutes: [4, 5, 7]}
# What is on screen takes its time from the programme:
#  - id: first
#    title: First chapter
#    kind: screen
#    treatments:
#      - {id: whole, worth: 60, show: {lesson: my-lesson, chapter: first-chapter}}
`,
  },
};
