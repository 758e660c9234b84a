/** What is published on post-heating to let hydrogen out, to stand beside what the procedure asks for. */
import type { Citation } from './citation.ts';
import { plain } from './number.ts';

export interface PostHeatingRange extends Citation {
  /** For what, in words. */
  readonly for: string;
  readonly celsiusMinimum?: number;
  readonly celsiusMaximum?: number;
  /** Hours at the thickness of this joint. Absent where the source gives none. */
  readonly hoursMinimum?: number;
  /** The rule in words. */
  readonly words: string;
}

export function postHeatingRanges(thicknessMillimetres: number): readonly PostHeatingRange[] {
  const hourPer25 = Math.max(1, thicknessMillimetres / 25);
  const atThis = `1 h per 25 mm and at least 1 h: ${plain(hourPer25, 1)} h here`;
  return [
    {
      for: 'all',
      celsiusMaximum: 427,
      words:
        'below about 427 °C (800 °F); the minimum preheat is kept until it begins; delayed cracks may come up to 48 h after cooling',
      source: 'AWS D10.10:2021, 5.3',
      status: 'verified',
      weight: 'recommended practice',
    },
    {
      for: 'Cr-Mo pressure vessels',
      celsiusMinimum: 300,
      hoursMinimum: 1,
      words: '300 °C (570 °F) or more, 1 h or more',
      source: 'API RP 934-C',
      status: 'second-hand',
      weight: 'recommended practice',
    },
    {
      for: 'heavy walls of Cr-Mo-V',
      celsiusMinimum: 350,
      hoursMinimum: 4,
      words: '350 °C, 4 h',
      source: 'practice',
      status: 'second-hand',
      weight: 'common practice',
    },
    {
      for: '9Cr-1Mo-V (P91)',
      celsiusMinimum: 300,
      hoursMinimum: 4,
      words: 'about 300 °C, 4 h',
      source: 'practice',
      status: 'second-hand',
      weight: 'common practice',
    },
    {
      for: 'CE of 0.5 % and above',
      celsiusMinimum: 200,
      hoursMinimum: hourPer25,
      words: `200 °C or more and not above the maximum interpass temperature; ${atThis}; not below 100 °C or the preheat before it`,
      source: 'practice',
      status: 'second-hand',
      weight: 'common practice',
    },
    {
      for: 'fracture-critical bridge members',
      celsiusMinimum: 230,
      celsiusMaximum: 315,
      hoursMinimum: hourPer25,
      words: `230 to 315 °C (450 to 600 °F); ${atThis}`,
      source: 'AWS D1.5',
      status: 'from memory',
      weight: 'code',
    },
    {
      for: 'mainly a yield above 460 MPa and more than 30 mm',
      celsiusMinimum: 200,
      celsiusMaximum: 300,
      hoursMinimum: 2,
      words: 'about 200 to 300 °C, 2 h or more, longer with thickness',
      source: 'SEW 088; EN 1011-2',
      status: 'from memory',
      weight: 'standard',
    },
  ];
}
