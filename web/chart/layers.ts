/**
 * What lies under and beside the lines: stretches without readings, passes, limits, moments, and the names
 * at the line ends. Drawn on the canvas directly, so that labels keep out of each other's way.
 */

import { spread } from '../../server/placing/spread.ts';
import type { Picture } from './picture.ts';

export interface Inks {
  readonly ink: string;
  readonly faint: string;
  readonly grid: string;
  readonly ground: string;
  readonly blank: string;
  readonly pass: string;
  readonly alarm: string;
  readonly font: string;
}

export interface Area {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
  x(at: number): number;
  y(celsius: number): number;
}

/** Room at the right for the names at the line ends, and at the top for passes and moments, px. */
export const labelRoom = 104;
export const markRoom = 40;

export const drawUnder = (context: CanvasRenderingContext2D, picture: Picture, area: Area, inks: Inks): void => {
  context.save();
  drawBlanks(context, picture, area, inks);
  drawPasses(context, picture, area, inks);
  drawMoments(context, picture, area, inks);
  drawBand(context, picture, area, inks);
  drawLimits(context, picture, area, inks);
  context.restore();
};

/** Names at the line ends, in the order of the values, each with a stroke to its line. */
export const drawEnds = (context: CanvasRenderingContext2D, picture: Picture, area: Area, inks: Inks): void => {
  const lines = picture.lines.filter((line) => line.end !== undefined);
  const at = spread(
    lines.map((line) => area.y(line.end!.y)),
    17,
    area.top,
    area.bottom,
  );
  context.save();
  context.font = `600 13px ${inks.font}`;
  context.textBaseline = 'middle';
  lines.forEach((line, index) => {
    const y = at[index]!;
    context.strokeStyle = line.style.colour;
    context.lineWidth = 1;
    stroke(context, [
      [Math.min(area.x(line.end!.x), area.right), area.y(line.end!.y)],
      [area.right + 8, y],
      [area.right + 14, y],
    ]);
    context.lineWidth = 3;
    context.setLineDash([...line.style.dash]);
    stroke(context, [
      [area.right + 14, y],
      [area.right + 32, y],
    ]);
    context.setLineDash([]);
    context.fillStyle = inks.ink;
    context.fillText(line.probe, area.right + 37, y, labelRoom - 38);
  });
  context.restore();
};

type Draw = (context: CanvasRenderingContext2D, picture: Picture, area: Area, inks: Inks) => void;

const drawBlanks: Draw = (context, { blanks }, area, inks) => {
  for (const blank of blanks) {
    const left = area.x(blank.from);
    const right = area.x(blank.to);
    context.fillStyle = inks.blank;
    context.fillRect(left, area.top, right - left, area.bottom - area.top);
    if (right - left < 76) continue;
    text(context, inks, inks.faint, 'center');
    context.fillText('no readings', (left + right) / 2, area.bottom - 10);
  }
};

/** A light ground with a dotted edge in the colour of its line. */
const drawBand: Draw = (context, { band }, area) => {
  if (band === undefined) return;
  context.save();
  context.beginPath();
  context.rect(area.left, area.top, area.right - area.left, area.bottom - area.top);
  context.clip();
  for (const run of band.runs) {
    const high = run.map(({ x, high: y }) => [area.x(x), area.y(y)] as const);
    const low = run.map(({ x, low: y }) => [area.x(x), area.y(y)] as const);
    context.globalAlpha = 0.16;
    context.fillStyle = band.colour;
    context.beginPath();
    [...high, ...low.toReversed()].forEach(([x, y], index) => {
      if (index === 0) context.moveTo(x, y);
      else context.lineTo(x, y);
    });
    context.fill();
    context.globalAlpha = 0.8;
    context.strokeStyle = band.colour;
    context.lineWidth = 1;
    context.setLineDash([2, 3]);
    stroke(context, high);
    stroke(context, low);
  }
  context.restore();
};

/** Upper row of the head: passes as brackets over their time. */
const drawPasses: Draw = (context, { marks, stretch }, area, inks) => {
  const rowY = area.top - markRoom + 10;
  let free = Number.NEGATIVE_INFINITY;
  for (const pass of marks.passes) {
    const left = area.x(Math.max(pass.from, stretch.from));
    const right = Math.max(left + 2, area.x(Math.min(pass.to ?? stretch.to, stretch.to)));
    context.fillStyle = inks.pass;
    context.fillRect(left, area.top, right - left, area.bottom - area.top);
    context.fillStyle = pass.outside ? inks.alarm : inks.ink;
    context.fillRect(left, area.top - 4, right - left, 4);
    const name = `pass ${pass.text}${pass.outside ? ', outside' : ''}`;
    text(context, inks, pass.outside ? inks.alarm : inks.ink, 'left');
    if (left < free) continue;
    context.fillText(name, left, rowY);
    context.strokeStyle = inks.faint;
    context.lineWidth = 1;
    stroke(context, [
      [left + 0.5, rowY + 8],
      [left + 0.5, area.top],
    ]);
    free = left + context.measureText(name).width + 10;
  }
};

/** Lower row of the head: heat on and off, lost links; contact readings stand at their temperature. */
const drawMoments: Draw = (context, { marks }, area, inks) => {
  const rowY = area.top - markRoom + 27;
  let free = Number.NEGATIVE_INFINITY;
  for (const moment of marks.moments) {
    const x = Math.round(area.x(moment.at)) + 0.5;
    if (moment.kind === 'contact') {
      const y = area.y(moment.celsius ?? 0);
      context.strokeStyle = inks.ink;
      context.fillStyle = inks.ground;
      context.lineWidth = 2;
      context.beginPath();
      context.moveTo(x, y - 7);
      context.lineTo(x + 7, y);
      context.lineTo(x, y + 7);
      context.lineTo(x - 7, y);
      context.closePath();
      context.fill();
      context.stroke();
      text(context, inks, inks.ink, 'left');
      context.fillText(moment.text, x + 11, y);
      continue;
    }
    context.strokeStyle = moment.kind === 'link' ? inks.alarm : inks.faint;
    context.lineWidth = 1;
    context.setLineDash([3, 3]);
    stroke(context, [
      [x, area.top - 6],
      [x, area.bottom],
    ]);
    context.setLineDash([]);
    if (x < free) continue;
    text(context, inks, moment.kind === 'link' ? inks.alarm : inks.ink, 'left');
    context.fillText(moment.text, x, rowY);
    free = x + context.measureText(moment.text).width + 10;
  }
};

const drawLimits: Draw = (context, { marks }, area, inks) => {
  for (const limit of marks.limits) {
    const y = Math.round(area.y(limit.celsius)) + 0.5;
    context.strokeStyle = inks.ink;
    context.lineWidth = limit.kind === 'minimum' ? 2 : 1.5;
    context.setLineDash(limit.kind === 'minimum' ? [] : [8, 4]);
    stroke(context, [
      [area.left, y],
      [area.right, y],
    ]);
    context.setLineDash([]);
  }
};

/** Over the lines, in a halo that hides next to nothing: below a minimum, above a maximum, on the side that is not to be entered. */
export const drawLimitNames = (context: CanvasRenderingContext2D, { marks }: Picture, area: Area, inks: Inks): void => {
  context.save();
  text(context, inks, inks.ink, 'left');
  context.lineJoin = 'round';
  context.lineWidth = 3;
  context.strokeStyle = inks.ground;
  for (const limit of marks.limits) {
    const y = area.y(limit.celsius) + (limit.kind === 'minimum' ? 12 : -11);
    context.strokeText(limit.text, area.left + 8, y);
    context.fillText(limit.text, area.left + 8, y);
  }
  context.restore();
};

const text = (context: CanvasRenderingContext2D, inks: Inks, colour: string, align: CanvasTextAlign): void => {
  context.font = `12px ${inks.font}`;
  context.fillStyle = colour;
  context.textAlign = align;
  context.textBaseline = 'middle';
};

const stroke = (context: CanvasRenderingContext2D, points: readonly (readonly [number, number])[]): void => {
  context.beginPath();
  points.forEach(([x, y], index) => {
    if (index === 0) context.moveTo(x, y);
    else context.lineTo(x, y);
  });
  context.stroke();
};
