/** What stands beside a requirement, in words. The slopes are those of EN 1011-2 method B, turned to other units by hand. */
import { expect, test } from 'vitest';
import { explain } from '../../../server/metallurgy/explanation.ts';
import { sensitivities } from '../../../server/metallurgy/what-if.ts';
import {
  coolingText,
  heatInputWindowText,
  martensiteText,
  residualText,
  sensitivityText,
  waitingText,
} from '../../../server/wording/explanation.ts';
import { plainJoint } from '../../support/plain-joint.ts';

const joint = plainJoint({
  weldShape: 'between runs of a butt weld',
  coolingSeconds: { minimum: 8, maximum: 25 },
  postHeating: { celsius: 250, hours: 2 },
  waitingEdition: 'North Sea practice',
});

test('a slope names its step, and in inches both turn together', () => {
  const hydrogen = sensitivities(joint, []).find(({ variable }) => variable === 'hydrogen')!;
  // 62·0.35·5^(−0.65) = 7.62 K.
  expect(sensitivityText(hydrogen, 'metric')).toBe('+7.6 K for each 1 ml/100 g more hydrogen');
  expect(sensitivityText(hydrogen, 'inch')).toBe('+13.7 °F for each 1 ml/100 g more hydrogen');
  const heat = sensitivities(joint, []).find(({ variable }) => variable === 'heat input')!;
  // (53·0.32725 − 32)·0.1 = −1.466 K for 0.1 kJ/mm; 5 kJ/in are 0.19685 kJ/mm, so −2.885 K or −5.19 °F.
  expect(sensitivityText(heat, 'metric')).toBe('\u22121.5 K for each 0.1 kJ/mm more heat input');
  expect(sensitivityText(heat, 'inch')).toBe('\u22125.2 °F for each 5 kJ/in more heat input');
});

test('cooling, window, martensite start, hydrogen left and the wait are whole phrases', () => {
  const { cooling, martensiteStart, afterWelding } = explain(joint, []);
  const [row] = cooling.parts[0]!.rows;
  // Q 1.5, Tp 145, F3 0.9: (6700 − 725)·1.5·(1/355 − 1/655)·0.9 = 10.4 s; 80 mm is beyond the transition thickness.
  expect(coolingText(row!, 'metric')).toMatch(
    /^10\.4 s, three-dimensional flow \(transition thickness 20 mm\), inside/,
  );
  // 8 and 25 s over 5975·(1/355 − 1/655)·0.9 are 1.153 and 3.603; shown inwards.
  expect(heatInputWindowText(row!.allowed!, 'metric')).toBe('1.16 kJ/mm to 3.6 kJ/mm');
  // Andrews: 539 − 423·0.17 − 30.4·1.45 − 17.7·0.05 − 12.1·0.05 − 7.5·0.01 = 421.4.
  expect(martensiteText(martensiteStart[0]!, 'metric')).toBe('421 °C');
  expect(martensiteText(martensiteStart[0]!, 'inch')).toBe('791 °F');
  expect(residualText(afterWelding.postHeating!.residual!)).toMatch(/^\d+ to \d+ % of the hydrogen left on the mean/);
  expect(waitingText(afterWelding, 'metric')).toMatch(/^North Sea practice: at least 48 h from the end of welding/);
});

test('a window of heat input is rounded inwards, in kJ/in too, and says where nothing keeps it', () => {
  expect(heatInputWindowText({ minimum: 1.001, maximum: 1.999 }, 'metric')).toBe('1.01 kJ/mm to 1.99 kJ/mm');
  // 1.001 and 1.999 kJ/mm are 25.4254 and 50.7746 kJ/in.
  expect(heatInputWindowText({ minimum: 1.001, maximum: 1.999 }, 'inch')).toBe('25.5 kJ/in to 50.7 kJ/in');
  expect(heatInputWindowText({ minimum: 1.2, maximum: 1.2 }, 'metric')).toBe('1.2 kJ/mm to 1.2 kJ/mm');
  expect(heatInputWindowText({ minimum: 1.001, maximum: 1.004 }, 'metric')).toBe(
    'only about 1.001 kJ/mm keeps the window',
  );
  expect(heatInputWindowText({ minimum: 2, maximum: 1 }, 'metric')).toBe('no heat input keeps the window');
});
