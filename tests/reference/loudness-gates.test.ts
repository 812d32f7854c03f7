import { expect, test } from 'vitest';
import { integratedLoudness } from '../../src/core/media/index.ts';
import { published } from '../support/published.ts';
import copied from './loudness-gates.json' with { type: 'json' };

const reference = published(copied);
const gates = reference.values['ITU-R BS.1770-5, 2023, annex 1'];

test('blocks at the absolute gate and below never count, those above do', () => {
  expect(integratedLoudness([gates.absolute])).toBeUndefined();
  expect(integratedLoudness([gates.absolute + 0.01])).toBeCloseTo(gates.absolute + 0.01, 9);
});

test('blocks further below the mean than the relative gate do not count, those nearer do', () => {
  // A thousand loud blocks hold the mean at −20, however quiet the one more is.
  const loud = Array.from({ length: 1000 }, () => -20);
  const out = integratedLoudness([...loud, -20 + gates.relative - 0.1]);
  const into = integratedLoudness([...loud, -20 + gates.relative + 0.1]);
  expect(out).toBeCloseTo(-20, 9);
  expect(into).toBeLessThan(-20.001);
});

test('every published value is compared', () => expect(reference.unread()).toEqual([]));
