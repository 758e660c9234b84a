/**
 * One step of heat through a wall: cell-centred finite volumes in the form that keeps enthalpy, second-order backward
 * differences (BDF2) with steps of any length, and the tridiagonal system solved by elimination. Conductivity at a
 * face is that of the mean temperature of its two sides; the flux at an outer face is that of a parabola through the
 * face and the two cells behind it, which keeps second order and still can not overshoot. What a cell stores counts in
 * part with the cells beside it, which takes away most of the error of a curved profile.
 *
 * The first step, a step much longer than the one before, and a step that would leave the range of what it began from
 * and is driven with are taken with backward differences of first order, which can not overshoot. So the temperatures
 * stay between the extremes of boundary and start, and a jump at a face starts damped.
 */
import { bounds } from './bounds.ts';
import { type Link, level, link } from './face-link.ts';
import { areaAt, type FaceCondition, type Field, fieldConductivity } from './field.ts';

/** Room to work in; nothing in it is kept from one step to the next. */
const size = bounds.cellsMaximum + 1;
const next = new Float64Array(size);
const guess = new Float64Array(size);
const stored = new Float64Array(size);
const upper = new Float64Array(size);
const right = new Float64Array(size);
/** By what heat a cell's temperature rises, and what it gained but for that, both for each metre of area at its middle. */
const holding = new Float64Array(size);
const gained = new Float64Array(size);

/**
 * Part of a cell's rise that counts with the cell beside it, in second-order steps. With a twelfth, what the difference
 * between two cells leaves out of a curved profile cancels (the compact scheme of fourth order, as Numerov's); what
 * one cell gives the other takes, so that the balance stays. The first-order step goes without: it may never overshoot.
 */
const sharedWithNeighbour = 1 / 12;

/** Properties are taken anew while a pass still moves a temperature by this much, kelvin. */
const passAgainKelvin = 0.05;
const passesMaximum = 4;
/** Above 2.41 the second-order steps are no longer stable. */
const longestRatio = 2.4;
/** What rounding may add to a temperature that stays. */
const roundingKelvin = 1e-9;

/** Of what a pass makes of the cells. */
const range = { lowest: 0, highest: 0 };

/** Flux through the faces after a pass, into the wall per square metre of front: what the balance is made with. */
const flow = { front: 0, back: 0 };

/** Moves the field on by that many seconds. */
export function step(field: Field, seconds: number, front: FaceCondition, back: FaceCondition): void {
  const ratio = field.lastSeconds > 0 ? seconds / field.lastSeconds : 0;
  let used = ratio <= longestRatio ? ratio : 0;
  solve(field, seconds, used, front, back);
  if (used > 0 && leavesRange(field, seconds, front, back)) {
    used = 0;
    solve(field, seconds, used, front, back);
  }
  keep(field, seconds, used, front, back);
}

/** Ratio 0 is the first-order step. */
function solve(field: Field, seconds: number, ratio: number, front: FaceCondition, back: FaceCondition): void {
  const cells = field.celsius.length;
  predict(field, ratio);
  for (let pass = 1; ; pass += 1) {
    assemble(field, seconds, (1 + 2 * ratio) / (1 + ratio), front, back);
    let comes = next[cells - 1]!;
    let moved = comes > guess[cells - 1]! ? comes - guess[cells - 1]! : guess[cells - 1]! - comes;
    range.lowest = comes;
    range.highest = comes;
    for (let cell = cells - 2; cell >= 0; cell -= 1) {
      comes = right[cell]! - upper[cell]! * comes;
      next[cell] = comes;
      const by = comes - guess[cell]!;
      if (by > moved) moved = by;
      else if (-by > moved) moved = -by;
      if (comes < range.lowest) range.lowest = comes;
      else if (comes > range.highest) range.highest = comes;
    }
    if (moved <= passAgainKelvin || pass === passesMaximum) break;
    for (let cell = 0; cell < cells; cell += 1) guess[cell] = next[cell]!;
  }
  flow.front = frontLink.flux + frontLink.conductance * (front.celsius - level(next[0]!, next[1]!));
  flow.back = backLink.flux + backLink.conductance * (back.celsius - level(next[cells - 1]!, next[cells - 2]!));
}

/**
 * A first guess along the straight line through the two steps before, and what is known of their heat. Here and in
 * `assemble` the polynomials stand in the loop, and what divides before it: it is the innermost one of the program.
 */
function predict({ celsius, before, steel }: Field, ratio: number): void {
  const { lowestCelsius } = steel;
  const [c0, c1, c2, c3] = steel.heatCapacity;
  const [half, third, quarter] = [c1 / 2, c2 / 3, c3 / 4];
  const last = -(1 + ratio);
  const earlier = (ratio * ratio) / (1 + ratio);
  for (let cell = 0; cell < celsius.length; cell += 1) {
    const at = celsius[cell]!;
    const was = before[cell]!;
    guess[cell] = at + ratio * (at - was);
    const inside = Math.max(at, lowestCelsius);
    let heat = inside * (c0 + inside * (half + inside * (third + inside * quarter)));
    if (at < inside) heat += (at - inside) * (c0 + inside * (c1 + inside * (c2 + inside * c3)));
    let known = last * heat;
    if (ratio > 0) {
      const then = Math.max(was, lowestCelsius);
      heat = then * (c0 + then * (half + then * (third + then * quarter)));
      if (was < then) heat += (was - then) * (c0 + then * (c1 + then * (c2 + then * c3)));
      known += earlier * heat;
    }
    stored[cell] = known;
  }
}

/** Properties at the guess, and the elimination from the front to the back. */
function assemble(field: Field, seconds: number, now: number, front: FaceCondition, back: FaceCondition): void {
  const { steel, conductivityFactor, depth, taper } = field;
  const { density, lowestCelsius } = steel;
  const cells = field.celsius.length;
  const [c0, c1, c2, c3] = steel.heatCapacity;
  const [half, third, quarter] = [c1 / 2, c2 / 3, c3 / 4];
  const [k0, k1] = steel.conductivity;
  const spacing = depth / cells;
  const perSecond = (spacing * density) / seconds;
  const perSpacing = conductivityFactor / spacing;
  const lost = field.sideways * seconds;
  const shared = now > 1 ? sharedWithNeighbour : 0;
  link(frontLink, field, front, guess[0]!, 1);
  link(backLink, field, back, guess[cells - 1]!, areaAt(field, depth));
  for (let cell = 0; cell < cells; cell += 1) {
    const at = guess[cell]!;
    const inside = Math.max(at, lowestCelsius);
    const capacity = c0 + inside * (c1 + inside * (c2 + inside * c3));
    const whole = inside * (c0 + inside * (half + inside * (third + inside * quarter)));
    const holds = perSecond * now * capacity;
    holding[cell] = holds;
    gained[cell] =
      holds * at - perSecond * (now * (whole + (at - inside) * capacity) + stored[cell]! + lost * capacity);
  }
  let across = 0;
  let passed = 0;
  let upperBefore = 0;
  let rightBefore = 0;
  for (let cell = 0; cell < cells; cell += 1) {
    const volume = 1 + taper * (cell + 0.5) * spacing;
    const holds = holding[cell]!;
    let known = volume * gained[cell]! + passed;
    let outside = 0;
    let lower = across;
    let diagonal = volume * holds + across;
    if (cell > 0) {
      const share = shared * (1 + taper * cell * spacing);
      lower -= share * holding[cell - 1]!;
      diagonal -= share * holds;
    }
    let onward = 0;
    if (cell === cells - 1) {
      outside = backLink.conductance;
      known += outside * back.celsius + backLink.flux;
      lower += outside / 8;
    } else {
      const area = 1 + taper * (cell + 1) * spacing;
      const mean = 0.5 * (guess[cell]! + guess[cell + 1]!);
      across = (k0 + k1 * Math.max(mean, lowestCelsius)) * perSpacing * area;
      const share = shared * area;
      onward = across - share * holding[cell + 1]!;
      diagonal += across - share * holds;
      passed = share * (gained[cell]! - gained[cell + 1]!);
      known -= passed;
    }
    if (cell === 0) {
      outside += frontLink.conductance;
      known += frontLink.conductance * front.celsius + frontLink.flux;
      onward += frontLink.conductance / 8;
    }
    const inverse = 1 / (diagonal + (9 / 8) * outside + lower * upperBefore);
    upperBefore = -onward * inverse;
    rightBefore = (known + lower * rightBefore) * inverse;
    upper[cell] = upperBefore;
    right[cell] = rightBefore;
  }
  next[cells - 1] = rightBefore;
}

const frontLink: Link = { conductance: 0, flux: 0 };
const backLink: Link = { conductance: 0, flux: 0 };

function leavesRange(field: Field, seconds: number, front: FaceCondition, back: FaceCondition): boolean {
  if (front.flux !== 0 || back.flux !== 0) return false;
  const { celsius } = field;
  let lowest = Math.min(celsius[0]!, field.frontCelsius, field.backCelsius);
  let highest = Math.max(celsius[0]!, field.frontCelsius, field.backCelsius);
  for (let cell = 0; cell < celsius.length; cell += 1) {
    const at = celsius[cell]!;
    if (at < lowest) lowest = at;
    else if (at > highest) highest = at;
  }
  for (const face of [front, back]) {
    if (face.kind === 'flux') continue;
    lowest = Math.min(lowest, face.celsius);
    highest = Math.max(highest, face.celsius);
  }
  const lost = field.sideways * seconds;
  lowest -= Math.max(0, lost);
  highest -= Math.min(0, lost);
  return range.lowest < lowest - roundingKelvin || range.highest > highest + roundingKelvin;
}

function keep(field: Field, seconds: number, ratio: number, front: FaceCondition, back: FaceCondition): void {
  const { celsius, before, heat } = field;
  const cells = celsius.length;
  for (let cell = 0; cell < cells; cell += 1) {
    before[cell] = celsius[cell]!;
    celsius[cell] = next[cell]!;
  }
  // The heat is summed by the rule of the step, so that what is stored and what came in are equal but for rounding.
  const now = (1 + 2 * ratio) / (1 + ratio);
  const earlier = (ratio * ratio) / (1 + ratio);
  const sum = (into: number, last: number, one: number) => (seconds * into + (1 + ratio) * last - earlier * one) / now;
  const { front: lastFront, back: lastBack } = heat;
  heat.front = sum(flow.front, lastFront, heat.frontBefore);
  heat.back = sum(flow.back, lastBack, heat.backBefore);
  heat.frontBefore = lastFront;
  heat.backBefore = lastBack;
  const backArea = areaAt(field, field.depth);
  field.frontFlux = flow.front;
  field.backFlux = backArea > 0 ? flow.back / backArea : 0;
  field.lastSeconds = seconds;
  field.lowest -= Math.max(0, field.sideways * seconds);
  field.highest -= Math.min(0, field.sideways * seconds);
  widen(field, front);
  widen(field, back);
  field.frontCelsius = faceCelsius(field, front, field.frontFlux, celsius[0]!, celsius[1]!);
  field.backCelsius = faceCelsius(field, back, field.backFlux, celsius[cells - 1]!, celsius[cells - 2]!);
}

function widen(field: Field, face: FaceCondition): void {
  if (face.kind !== 'flux') {
    field.lowest = Math.min(field.lowest, face.celsius);
    field.highest = Math.max(field.highest, face.celsius);
  } else if (face.flux !== 0) {
    // A flux sets no limit of its own: here the wall itself says how far it went.
    const half = (face.flux * field.depth) / field.celsius.length;
    for (const at of field.celsius) {
      field.lowest = Math.min(field.lowest, at, at + half / fieldConductivity(field, at));
      field.highest = Math.max(field.highest, at, at + half / fieldConductivity(field, at));
    }
  }
}

/** A face that is not held: a parabola through the two outer cells and the flux, kept inside what is possible. */
function faceCelsius(field: Field, face: FaceCondition, flux: number, first: number, second: number): number {
  if (face.kind === 'held') return face.celsius;
  const spacing = field.depth / field.celsius.length;
  const at = level(first, second) + (3 * flux * spacing) / (8 * fieldConductivity(field, first));
  return Math.min(Math.max(at, field.lowest), field.highest);
}
