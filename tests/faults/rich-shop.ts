/** Path → text of a small shop in which every kind of content file uses most of its keys. Its values are invented. */
export const RICH_SHOP: Readonly<Record<string, string>> = {
  'shop.yaml': `name: Millrace Community Garage
about: Free Saturday classes.
invented: true
site: https://garage.example
timezone: Europe/London
language: en-GB
units: [metric, us]
paper: A4
contact: garage@garage.example
`,
  'kit.yaml': `tools:
  breaker-bar: {title: Breaker bar, count: 2}
  torque-wrench:
    title: Torque wrench, large
    kind: torque-wrench
    range: {min: 40, max: 200, unit: N·m}
    resolution: {nominal: 1, unit: N·m}
    lever: {nominal: 450, unit: mm}
    count: 1
  crow-foot: {title: Crow foot, extension: {nominal: 50, unit: mm}}
  grinder: {title: Angle grinder, hazard: throws sparks and splinters, signal: warning}
parts:
  cotter-pin: {title: Cotter pin, replace: always, count: 20}
supplies:
  grease: {title: Grease, amount: {nominal: 5, unit: mL}, hazard: harms skin, signal: caution}
protective:
  gloves: {title: Gloves, count: 12}
`,
  'specs/tarn-420.yaml': `# Invented values.
machine:
  title: Tarn 420
  years: 2019-2025
  variants: [{id: standard, title: Standard}, {id: tall, title: Tall}]
  regions: [EU, US]
  invented: true
documents:
  manual: {title: Service manual (invented), edition: "2", date: 2019-02-01, invented: true}
specs:
  - id: axle-nut
    title: Rear axle nut
    kind: torque
    nominal: 98
    plusMinus: 5
    unit: N·m
    years: 2019-2021
    condition: dry
    fastener: {size: M16×1.5, class: "8.8"}
    critical: true
    replace: always
    part: cotter-pin
    note: On the wheels.
    source: {document: manual, section: Rear, page: 41}
    checkedBy: lead
    checkedOn: 2026-06-01
    reviewMonths: 24
    history:
      - {until: 2024-03-01, bulletin: first edition, nominal: 90, plus: 5, minus: 4, unit: N·m}
  - id: axle-nut
    title: Rear axle nut
    kind: torque
    min: 100
    max: 110
    unit: N·m
    years: 2022-
    fastener: {size: M16×1.5}
    source: {document: manual, page: 42}
  - {id: chain-slack, title: Chain slack, kind: length, min: 30, max: 40, unit: mm, source: {document: manual, page: 12}}
  - id: head-bolts
    title: Head bolts
    kind: torque-sequence
    stages: [{nominal: 20, plusMinus: 2, unit: N·m}, {nominal: 90, unit: °}]
    source: {document: manual, page: 7}
  - id: chain-service
    title: Chain service
    kind: interval
    distance: {nominal: 1000, unit: km}
    time: {nominal: 6, unit: month}
    variants: [standard, tall]
    regions: [EU, US]
    source: {document: manual, page: 3}
  - id: belt
    title: Belt play
    kind: length
    nominal: 12
    plusMinus: 2
    unit: mm
    under: {nominal: 45, unit: N}
    source: {document: manual, page: 5}
`,
  'recordings/chain.yaml': `title: Chain, uncut
files:
  - {file: media/chain-1.mp4, start: "01:00:00;00"}
  - {file: media/chain-2.mp4}
rate: 29.97df
start: "01:00:00;00"
captions: media/chain.vtt
shows:
  - {at: "0:06:20", text: 98 N·m}
edit:
  - {in: "0:00:10", out: "0:05:00"}
  - {in: "0:06:00", out: "0:09:00", angle: side}
angles:
  - {id: side, file: media/side.mp4, offset: "-0:00:03.5", drift: 12}
sound: side
people:
  - {role: instructor, name: Ada, release: on-file}
`,
  'media/chain.vtt': `WEBVTT

STYLE
::cue {color: white}

first
00:00:11.000 --> 00:00:20.000 align:start
<v Ann>Crack the nut <00:00:12.500>on its wheels &amp; mind your <b>toes</b>.

NOTE of the editor

00:06:15.000 --> 00:06:25.000
Ninety eight newton metres,
give or take five.
`,
  'media/side.srt': `1
00:00:11,000 --> 00:00:20,000
{\\an8}<i>Thirty to forty</i> millimetres of slack.

2
00:06:15,000 --> 00:06:25,000
Tighten it & check.
`,
  'lessons/chain.mdx': `---
title: Chain and axle
recording: chain
machine: tarn-420
years: 2019-2024
summary: Set the chain and put the axle back.
level: first
---
Before you begin, *read* the [manual](https://garage.example/manual).

## Rear wheel
<Cue at="0:00:20" />

### Crack the nut
<Cue at="0:00:30" until="0:02:00" id="crack" />

<Uses tool="breaker-bar" /> <Uses protective="gloves" count="1" /> Crack it on the wheels.
<Warning>Support the frame first.</Warning>

- one
- two | three

### Tighten the nut
<Cue at="0:06:10" />

<Uses tool="torque-wrench" /> <Uses part="cotter-pin" /> Tighten to <Spec of="axle-nut" />, slack <Spec of="chain-slack" measured />.
<KeyPoint why="on a stand it falls">Wheels on the floor.</KeyPoint>
<Discuss minutes="3">What would you do?</Discuss>

| a | b |
| - | - |
| 1 | 2 |
`,
  'classes/saturday.yaml': `title: Chain, Saturday
summary: Bring your bike.
date: 2026-12-05
starts: "10:00"
slot: "2:00"
buffer: 5
place: Millrace, bay 2
map: https://garage.example/map
attendees: 6
capacity: 8
bring: [gloves, lunch]
people: [{role: lead, name: Ada}]
limits: {screenMinutes: 40, seatedMinutes: 60, breakMinutes: 5, handsOnShare: 0.2}
blocks:
  - {id: welcome, title: Welcome, kind: welcome, must: true, presenter: lead, treatments: [{id: talk, minutes: [3, 5, 8], worth: 10}]}
  - {id: safety, title: Safety, kind: safety, must: true, before: [bench], treatments: [{id: talk, minutes: 5, worth: 20}]}
  - id: wheel
    title: Rear wheel
    kind: screen
    after: [welcome]
    treatments:
      - {id: whole, title: All of it, show: {lesson: chain, chapter: rear-wheel, speed: 1.25}, worth: 60}
      - {id: short, show: {lesson: chain, from: crack, to: tighten-the-nut}, worth: 30, seated: true}
  - id: bench
    title: Your own chain
    kind: hands-on
    about: {lesson: chain, chapter: rear-wheel}
    needs: [wheel]
    between: ["10:20", "11:30"]
    bay: bench
    kit: [{tool: torque-wrench, count: 1, per: station}, {protective: gloves, count: 1, per: attendee}]
    note: Two at a time.
    treatments: [{id: all, worth: 90, stations: {count: 3, group: 2, minutes: [8, 10, 14], visit: one, change: 1, meanwhile: watch}}]
  - {id: tea, title: Tea, kind: break, anywhere: true, together: [wheel], treatments: [{id: tea, minutes: 10, worth: 5}]}
  - {id: sweep, title: Sweep, kind: clear-up, at: "11:50", leaveOut: false, give: broom, treatments: [{id: broom, minutes: 5, worth: 5}]}
`,
  'classes/saturday.actual.yaml': `date: 2026-11-07
attendees: 5
blocks:
  - {id: welcome, treatment: talk, minutes: 6}
  - {id: wheel, treatment: whole, starts: "10:15", ends: "10:40", note: slow}
`,
  'corrections/chain.yaml': `corrections:
  - {step: tighten-the-nut, at: "0:06:15", spec: axle-nut, said: ninety newton metres, on: 2026-10-01, by: lead, note: The manual changed.}
  - {step: crack, at: "0:00:40", spec: chain-slack, shown: 20 mm, on: 2026-10-02}
`,
};
