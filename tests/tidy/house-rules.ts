/**
 * The order of the rooms as DEVELOPERS.md states it, so that the list stands once. The block there is marked
 * `rooms`: lines without a colon name rooms from low to high; "pure:", "inlets:" and "outlets:" name some of them.
 */
import { textOf } from './sources.ts';

export interface HouseRules {
  /** Low to high; rooms of one level do not import each other. */
  readonly levels: readonly (readonly string[])[];
  readonly pure: readonly string[];
  readonly inlets: readonly string[];
  readonly outlets: readonly string[];
}

export function readHouseRules(document: string): HouseRules {
  const block = /^```rooms\n(.*?)^```$/ms.exec(document)?.[1];
  if (block === undefined) throw new Error('DEVELOPERS.md has no block marked "rooms"');
  const names = (text: string) => text.split(/[,\s]+/).filter((name) => name !== '');
  const lines = block.split('\n').filter((line) => line.trim() !== '');
  const titled = (title: string) =>
    names(lines.find((line) => line.startsWith(`${title}:`))?.slice(title.length + 1) ?? '');
  return {
    levels: lines.filter((line) => !line.includes(':')).map(names),
    pure: titled('pure'),
    inlets: titled('inlets'),
    outlets: titled('outlets'),
  };
}

export const houseRules = readHouseRules(textOf('DEVELOPERS.md'));

/** server/weld/joint.ts is in "weld", server/pipeline.ts in "pipeline.ts", web/feed/http.ts in "web/feed". */
export function roomOf(file: string): string {
  const [top = '', room = ''] = file.split('/');
  return top === 'web' ? `web/${room}` : room;
}

/** Why a file may not import another, in one sentence; undefined where it may. */
export function objection(rules: HouseRules, from: string, to: string): string | undefined {
  const [importer, imported] = [roomOf(from), roomOf(to)];
  if (importer === imported) return undefined;
  const level = (room: string) => rules.levels.findIndex((rooms) => rooms.includes(room));
  for (const room of [importer, imported]) {
    if (level(room) < 0) return `the room "${room}" does not stand in the list in DEVELOPERS.md`;
  }
  const webReachesServer = from.startsWith('web/') && !to.startsWith('web/');
  if (webReachesServer && !rules.pure.includes(imported) && to !== 'server/screen/contract.ts') {
    return 'pages import pure rooms and server/screen/contract.ts only';
  }
  if (!from.startsWith('web/') && to.startsWith('web/')) return 'the server never imports the pages';
  if (rules.outlets.includes(importer) && [...rules.outlets, ...rules.inlets].includes(imported)) {
    return 'an outlet imports neither another outlet nor an inlet';
  }
  if (level(imported) >= level(importer)) return `"${imported}" is not below "${importer}"`;
  return undefined;
}
