import { expect, test } from 'vitest';
import { heatInputFigureText, lengthText, travelText } from '../../../server/wording/length.ts';

test('lengths, heat input and travel in the units of the job', () => {
  expect(lengthText(75, 'metric')).toBe('75 mm');
  expect(lengthText(12.5, 'metric')).toBe('12.5 mm');
  expect(lengthText(75, 'inch')).toBe('2.95 in');
  expect(lengthText(50.8, 'inch')).toBe('2 in');
  expect(lengthText(9.525, 'inch')).toBe('0.375 in');
  expect(heatInputFigureText(1.5, 'metric')).toBe('1.5 kJ/mm');
  expect(heatInputFigureText(1.5, 'inch')).toBe('38.1 kJ/in');
  expect(travelText(4, 'metric')).toBe('4 mm/s');
  expect(travelText(4, 'inch')).toBe('9.45 in/min');
});
