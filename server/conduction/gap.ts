/**
 * A gap in the readings of the heated face that is too long for a straight line. What the face did meanwhile is not
 * known, so the band widens to what it can have done: at worst the heater went off with the first missing reading and
 * the face stood in a draught; at best it stayed at the hotter of the readings before and after. Heat that went
 * sideways out of a heated band is met by the reading after the gap: in the cold walls nothing is left warmer than a
 * face that was held at that reading would leave it. From there on both ends are driven by readings again and close.
 */
import type { Instant, MilliCelsius } from '../measure/quantity.ts';
import { type Course, follow } from './ahead.ts';
import { bounds } from './bounds.ts';
import { backAhead, caseOf, frontLeft } from './faces.ts';
import { copyField, createField, type FaceCondition, type Field, held, meanOf } from './field.ts';
import { lossCasesOf } from './loss.ts';
import { noReadings } from './readings.ts';
import { type Refusal, refuse } from './refusal.ts';
import { eachWall, type Section, sectionNow } from './section.ts';
import { stepSideways } from './sideways.ts';
import { timeConstantOf } from './time-constant.ts';
import type { Wall } from './wall.ts';

/** The section at the instant of the first reading after the gap; the one handed in stays as it is. */
export function acrossGap(section: Section, at: Instant, front: MilliCelsius): Section | Refusal {
  const { spec, likely } = section;
  const celsius = front / 1000;
  const silent = at - likely.front.lastAt;
  if (lossCasesOf(spec.far) === undefined)
    return refuse('far side not judged', 'What the far side took during the gap can not be named. Begin anew.');
  if (silent > bounds.gapHoursMaximum * 3_600_000)
    return refuse('gap too long', `No reading for more than ${bounds.gapHoursMaximum} h. Begin anew.`);
  if (celsius > spec.steel.highestCelsius || celsius < bounds.partLowestCelsius)
    return refuse('above the range of the properties', `${celsius} °C is not a reading of this steel.`);
  const now = sectionNow(section);
  const across = eachWall(now, (wall) => after(now, wall, at, celsius));
  if (across.sideways !== undefined)
    stepSideways(across.sideways, (at - now.likely.at) / 1000, meanOf(across.likely.field));
  return across;
}

function after(now: Section, wall: Wall, at: Instant, celsius: number): Wall {
  const seconds = (at - wall.at) / 1000;
  const end = caseOf(now, wall);
  const back = backAhead(now, wall);
  const field = fieldAfter(wall, {
    front: frontMeanwhile(now, wall, seconds, celsius),
    back,
    bends: [],
    until: seconds,
  });
  const warmest = end === 'worst' ? settledAt(wall, celsius, back) : undefined;
  const cells = field.celsius.map((each, cell) => Math.min(each, warmest?.celsius[cell] ?? each));
  const part = (seconds * 1000) / timeConstantOf(wall);
  return {
    ...wall,
    field: {
      ...copyField(field),
      celsius: cells,
      before: [...cells],
      // The face jumps to what is read now: the next step begins damped.
      lastSeconds: 0,
      frontCelsius: celsius,
      backCelsius: Math.min(field.backCelsius, warmest?.backCelsius ?? field.backCelsius),
      lowest: Math.min(field.lowest, celsius),
      highest: Math.max(field.highest, celsius),
    },
    at,
    front: noReadings(at, celsius, true),
    back: noReadings(wall.back.lastAt, wall.back.last, wall.back.everRead),
    rise: { at, celsius },
    fourier: wall.fourier + part * wall.mode,
    startLeft: wall.startLeft / (1 + part + (part * part) / 2),
  };
}

function fieldAfter(wall: Wall, course: Course): Field {
  let field = wall.field;
  follow(wall, course, (_, reached) => {
    field = reached;
    return false;
  });
  return field;
}

/** What lies behind a face that was held at this for long. */
function settledAt(wall: Wall, celsius: number, back: FaceCondition): Field {
  const { steel, depth, taper, conductivityFactor } = wall.field;
  const even = createField({ steel, depth, taper, cells: wall.field.celsius.length, conductivityFactor }, celsius);
  const face = held(celsius);
  const until = (bounds.lookAheadTimeConstants * timeConstantOf(wall)) / 1000;
  return fieldAfter({ ...wall, field: even }, { front: () => face, back, bends: [], until });
}

function frontMeanwhile(now: Section, wall: Wall, seconds: number, celsius: number): (at: number) => FaceCondition {
  const before = wall.field.frontCelsius;
  switch (caseOf(now, wall)) {
    case 'worst': {
      const left = frontLeft(now, wall, draught);
      return () => left;
    }
    case 'likely':
      return (at) => held(before + ((celsius - before) * at) / seconds);
    case 'best': {
      const face = held(Math.max(before, celsius));
      return () => face;
    }
  }
}

const draught = lossCasesOf('draught')!;
