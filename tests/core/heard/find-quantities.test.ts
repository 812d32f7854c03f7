import { describe, expect, test } from 'vitest';
import { findQuantities, findQuantitiesByLine } from '../../../src/core/heard/index.ts';
import { label, labelled } from '../../support/heard.ts';

const sentences = labelled('tests/reference/heard/sentences.txt');

describe('the labelled sentences', () => {
  test('are at least 300, about half of them without any quantity', () => {
    expect(sentences.length).toBeGreaterThanOrEqual(300);
    const traps = sentences.filter(({ expected }) => expected.length === 0).length / sentences.length;
    expect(traps).toBeGreaterThan(0.4);
    expect(traps).toBeLessThan(0.6);
  });
});

test('the words heard are the words in the text', () => {
  for (const { text } of sentences)
    for (const heard of findQuantities(text)) {
      expect(text.slice(heard.start, heard.end)).toBe(heard.text);
      expect(heard.text).not.toMatch(/^\s|[\s.,;:]$/);
    }
});

describe('columns and lines', () => {
  test('of a plain text are counted from 0 and from 1', () => {
    const [first, second] = findQuantitiesByLine('Nothing here.\nTorque it to 98 N·m, then wait ten minutes.\n');
    expect([first?.line, first?.start, first?.end, first?.text]).toEqual([2, 13, 19, '98 N·m']);
    expect([second?.line, second?.text]).toEqual([2, 'ten minutes']);
  });

  test('captions are heard without their timings, over the lines of one caption', () => {
    const vtt =
      'WEBVTT\n\n1\n00:00:10.000 --> 00:00:12.000\n<v Instructor>torque it to ninety\neight newton metres\n\n00:00:13.000 --> 00:00:15.000\nthat is 72 foot-pounds\n';
    const heard = findQuantitiesByLine(vtt);
    expect(heard.map((each) => [each.line, label(each)])).toEqual([
      [5, 'torque 98..98 N·m'],
      [9, 'torque 72..72 lbf·ft'],
    ]);
    expect(vtt.split('\n')[4]?.slice(heard[0]?.start, heard[0]?.end)).toBe('ninety');
  });
});

// Each of these once was heard wrongly, or not at all.
test.each<[string, ...string[]]>([
  ['Next step: 40 newton metres.', 'torque 40..40 N·m'],
  ['On page 12 in the manual.'],
  ['Charge it to 14.4 volts.', 'voltage 14.4..14.4 V'],
  ['It costs twenty a litre.'],
  ['We let it soak for ten minutes.', 'time 10..10 min'],
  ["I've had it for six years."],
  ['Let it cool thirty minutes before the oil is drained.', 'time 30..30 min'],
  ['Give the glue at least a day.', 'time 1.. day'],
  ['Two and a half thousand miles.', 'distance 2500..2500 mi'],
  ['A further hundred and eighty degrees.', 'angle 180..180 °'],
  ['A couple of hundred miles.'],
  ['Three thirty-seconds of an inch.', 'length 0.09375..0.09375 in'],
  ['They lowered it from 50 to 44 newton metres.', 'torque 44..50 N·m'],
  ['Ten- to twelve-millimetre sag.', 'length 10..12 mm'],
  ['A hundred newton metres plus or minus ten percent.', 'torque 90..110 N·m'],
  ['98 N·m ±5%.', 'torque 93.1..102.9 N·m'],
  ['Ninety newton metres, no, sorry, eighty newton metres.', 'torque 80..80 N·m'],
  ['Ninety newton metres, no more than ninety-five newton metres.', 'torque 90..90 N·m', 'torque ..95 N·m'],
  ['Snug it to twenty, no, twenty-two newton metres.', 'torque 22..22 N·m'],
  ['Twenty five, thirty newton metres.', 'torque 25..30 N·m'],
  ['Min 30 mm, max 40 mm.', 'length 30.. mm', 'length ..40 mm'],
  ['max. 0.1 mm', 'length ..0.1 mm'],
  ['Five microns of runout at most.', 'length ..5 µm'],
  ['A 1.6 mm tyre tread depth.', 'length 1.6..1.6 mm'],
  ['Ten degrees Celsius hotter.', 'temperature-difference 10..10 °C'],
  ['Twelve foot lbs.', 'torque 12..12 lbf·ft'],
  ['12 ft-pounds.', 'torque 12..12 lbf·ft'],
  ['Sixty miles to the gallon.'],
  ['The limit for this stand is 300 kg.', 'mass ..300 kg'],
  ['The lower limit is eleven volts.', 'voltage 11.. V'],
  ['The limit for the pads is two millimetres.', 'length 2.. mm'],
  ['Ten kilos is the limit.', 'mass ..10 kg'],
  ['The most it will take is six newton metres.', 'torque ..6 N·m'],
  ['Maximum tool and tray: 20 kg.', 'mass ..20 kg'],
  ['Nip the nut up to 12 N·m.', 'torque 12..12 N·m'],
  ['It can take up to 12 N·m.', 'torque ..12 N·m'],
  ['Lower it from 60 psi down to 24 in steps.', 'pressure 24..60 psi'],
  ['An inch to an inch and a half of play.', 'length 1..1.5 in'],
  ['For a sixty to seventy kilogram rider.', 'mass 60..70 kg'],
  ['Within the next fifty miles.', 'distance ..50 mi'],
  ['Hoses last six years.', 'time 6..6 year'],
  ['Give the glue ten minutes to go hard.', 'time 10..10 min'],
  ['Wait a minute, then look again.', 'time 1..1 min'],
  ['The class lasts ninety minutes.'],
  ['Five minutes, folks.'],
  ['We work five days a week.'],
  ['It loses 3 psi a week.'],
  ['Not a gram of grease in it.'],
  ['Set 20 psi, not 20 bar.', 'pressure 20..20 psi'],
  ['That is fifty, not fifteen, newton metres.', 'torque 50..50 N·m'],
  ['20 psi, sorry, wrong wheel, 24 psi.', 'pressure 24..24 psi'],
  ['18 (+2/−0) N·m.', 'torque 18..20 N·m'],
  ['Ten millimetres minus nothing, plus one.', 'length 10..11 mm'],
  ['40 N·m, five either way.', 'torque 35..45 N·m'],
  ['The scale goes up to fifty kilos.', 'mass ..50 kg'],
  ['Hang it from the ceiling, 2 metres up.', 'length 2..2 m'],
  ['50 -0/+2 mm.', 'length 50..52 mm'],
  ['It cures in a day.', 'time 1..1 day'],
  ['Wait an hour before you load it.', 'time 1..1 h'],
  ['The job took three hours.'],
  ['The 8 mm ones go at the top.'],
  ['It sits 3 mm one side and 4 mm the other.', 'length 3..3 mm', 'length 4..4 mm'],
  ['Measure the lining. The limit is 1.5 mm.', 'length 1.5.. mm'],
  ['Minimum is 4 mm, maximum is 5 mm.', 'length 4.. mm', 'length ..5 mm'],
  ["You're under the limit: 0.3 mm.", 'length 0.3..0.3 mm'],
  ['Storage: -10 to +40 °C.', 'temperature -10..40 °C'],
  ['Keep the difference under five degrees Celsius.', 'temperature-difference ..5 °C'],
  ['The temperature rises above 95 °C.', 'temperature 95.. °C'],
  ['There is a tolerance of plus or minus two newton metres.'],
  ['A 1.5 mm pitch.'],
  ["In five minutes we'll start the engine."],
  ['Two millimetres or thinner.', 'length ..2 mm'],
  ['5 mm or better of thread.', 'length 5.. mm'],
  ['Anything from thirty psi upwards.', 'pressure 30.. psi'],
  ['Drop it 12 mm and lower the wheel.', 'length 12..12 mm'],
  ['Once it gets up to 80 °C, stop.', 'temperature 80..80 °C'],
  ['The pressure came up to 40 psi.', 'pressure 40..40 psi'],
  ['Get up to 30 mph and brake.', 'speed 30..30 mph'],
  ['You can get up to 9 A out of it.', 'current ..9 A'],
  ['In a long cut it goes up to 9 A.', 'current 9..9 A'],
  ['The supply goes up to 9 A.', 'current ..9 A'],
  ['The gap has closed up to 0.3 mm.', 'length 0.3..0.3 mm'],
  ['The lift takes bikes up to 300 kg.', 'mass ..300 kg'],
  ['Three mil of slack, thirty mil of oil.', 'length 3..3 mm', 'volume 30..30 mL'],
])('%s', (text, ...expected) => {
  expect(findQuantities(text).map(label)).toEqual(expected);
});

test('what speech leaves open keeps its readings', () => {
  const [quarts] = findQuantities('It takes two quarts.');
  expect(quarts?.readings.map(({ symbol }) => symbol)).toEqual(['US qt', 'imp qt']);
  const [degrees] = findQuantities('Heat it to ninety degrees.');
  expect(degrees?.readings.map(({ symbol }) => symbol)).toEqual(['°C', '°F']);
});
