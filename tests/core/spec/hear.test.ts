import { describe, expect, test } from 'vitest';
import { hear, hearLines } from '../../../src/core/spec/index.ts';
import { label, labelled, score } from '../../support/heard.ts';

const sentences = labelled('tests/reference/heard/sentences.txt');

describe('the labelled sentences', () => {
  test('are at least 300, about half of them without any quantity', () => {
    expect(sentences.length).toBeGreaterThanOrEqual(300);
    const traps = sentences.filter(({ expected }) => expected.length === 0).length / sentences.length;
    expect(traps).toBeGreaterThan(0.4);
    expect(traps).toBeLessThan(0.6);
  });

  test('are heard with a precision of 0.97 and a recall of 0.95 at least', () => {
    const { precision, recall, misses } = score(sentences);
    expect(precision, JSON.stringify(misses, null, 1)).toBeGreaterThanOrEqual(0.97);
    expect(recall).toBeGreaterThanOrEqual(0.95);
  });
});

test('the words heard are the words in the text', () => {
  for (const { text } of sentences)
    for (const heard of hear(text)) {
      expect(text.slice(heard.start, heard.end)).toBe(heard.text);
      expect(heard.text).not.toMatch(/^\s|[\s.,;:]$/);
    }
});

describe('columns and lines', () => {
  test('of a plain text are counted from 0 and from 1', () => {
    const [first, second] = hearLines('Nothing here.\nTorque it to 98 N·m, then wait ten minutes.\n');
    expect([first?.line, first?.start, first?.end, first?.text]).toEqual([2, 13, 19, '98 N·m']);
    expect([second?.line, second?.text]).toEqual([2, 'ten minutes']);
  });

  test('captions are heard without their timings, over the lines of one caption', () => {
    const vtt =
      'WEBVTT\n\n1\n00:00:10.000 --> 00:00:12.000\n<v Instructor>torque it to ninety\neight newton metres\n\n00:00:13.000 --> 00:00:15.000\nthat is 72 foot-pounds\n';
    const heard = hearLines(vtt);
    expect(heard.map((each) => [each.line, label(each)])).toEqual([
      [5, 'torque 98..98 N·m'],
      [9, 'torque 72..72 lbf·ft'],
    ]);
    expect(vtt.split('\n')[4]?.slice(heard[0]?.start, heard[0]?.end)).toBe('ninety');
  });
});

test('what speech leaves open keeps its readings', () => {
  const [quarts] = hear('It takes two quarts.');
  expect(quarts?.readings.map(({ symbol }) => symbol)).toEqual(['US qt', 'imp qt']);
  const [degrees] = hear('Heat it to ninety degrees.');
  expect(degrees?.readings.map(({ symbol }) => symbol)).toEqual(['°C', '°F']);
});
