import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { ObservableValue, paced } from '../../../src/app/session/observable.ts';

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

test('a first change is told at once, those of the pause together at its end, and the last value is never missed', () => {
  const source = new ObservableValue(0);
  const heard: number[] = [];
  const slow = paced(source, 100);
  const stop = slow.subscribe(() => heard.push(slow.get()));
  source.set(1);
  expect(heard).toEqual([1]);
  source.set(2);
  source.set(3);
  vi.advanceTimersByTime(99);
  expect(heard).toEqual([1]);
  vi.advanceTimersByTime(1);
  expect(heard).toEqual([1, 3]);
  source.set(4);
  vi.advanceTimersByTime(100);
  expect(heard).toEqual([1, 3, 4]);
  vi.advanceTimersByTime(1000);
  source.set(5);
  expect(heard).toEqual([1, 3, 4, 5]);
  source.set(6);
  stop();
  vi.advanceTimersByTime(1000);
  expect(heard).toEqual([1, 3, 4, 5]);
});

test('the value is always the one of now, whether it was told of or not', () => {
  const source = new ObservableValue('a');
  const slow = paced(source, 100);
  slow.subscribe(() => {});
  source.set('b');
  source.set('c');
  expect(slow.get()).toBe('c');
});
