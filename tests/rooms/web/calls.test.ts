import { beforeEach, expect, test } from 'vitest';
import { calls, drop, takeState, toggleCall, waits } from '../../../web/state/calls.ts';
import { girderScript } from '../../support/station/scripts.ts';
import { momentOf } from './page-fixture.ts';

const asked = { joint: 'girder', title: 'Girder 3', kind: 'ready' } as const;
const heating = momentOf(girderScript, 12).live;
const ready = momentOf(girderScript, 55).live;

beforeEach(() => {
  calls.value = [];
});

test('a call that is asked for twice is taken back', () => {
  toggleCall(asked);
  expect(waits('girder', 'ready')).toBe(true);
  expect(waits('girder', 'break')).toBe(false);
  toggleCall(asked);
  expect(calls.value).toEqual([]);
});

test('it waits while it is too early, is told once, and stands until it is seen', () => {
  toggleCall(asked);
  takeState('girder', heating);
  takeState('another joint', ready);
  expect(waits('girder', 'ready')).toBe(true);
  takeState('girder', ready);
  const told = calls.value;
  expect(told).toMatchObject([{ ...asked, called: { text: 'it is ready' } }]);
  takeState('girder', ready);
  expect(calls.value, 'not told a second time').toBe(told);
  drop(told[0]!);
  expect(calls.value).toEqual([]);
});

test('one that was told can be asked for again', () => {
  toggleCall(asked);
  takeState('girder', ready);
  toggleCall(asked);
  expect(calls.value).toEqual([asked]);
});
