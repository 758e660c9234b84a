/**
 * Which page is open, kept in the address after the #, so that the station serves one file for all of
 * them and a page can be reloaded, bookmarked or put on a wall.
 */
import { signal } from '@preact/signals';

export type Route =
  | { readonly page: 'overview' }
  | { readonly page: 'new joint' }
  | { readonly page: 'people' }
  | { readonly page: 'links' }
  | { readonly page: 'hand-over' }
  | { readonly page: 'judge logs' }
  | { readonly page: 'instruments' }
  | { readonly page: 'past' }
  | { readonly page: 'past counts' }
  | { readonly page: 'joint'; readonly joint: string }
  | { readonly page: 'correct joint'; readonly joint: string }
  | { readonly page: 'repair joint'; readonly joint: string }
  | { readonly page: 'record'; readonly joint: string }
  | { readonly page: 'requirement'; readonly joint: string }
  | { readonly page: 'what if'; readonly joint: string }
  | { readonly page: 'procedures' }
  | { readonly page: 'procedure'; readonly procedure: string }
  /** Of a procedure that has revisions, or of one that has none yet. */
  | { readonly page: 'new revision'; readonly procedure?: string }
  | { readonly page: 'unknown'; readonly address: string };

export type ProcedureRoute = Extract<Route, { page: 'procedures' | 'procedure' | 'new revision' }>;

export const readRoute = (hash: string): Route => {
  const parts = hash
    .replace(/^#?\/?/, '')
    .split('/')
    .filter((part) => part !== '')
    .map(decode);
  const [first, joint, last] = parts;
  if (first === undefined) return { page: 'overview' };
  if (first === 'new' && joint === undefined) return { page: 'new joint' };
  if (first === 'hand-over' && joint === undefined) return { page: 'hand-over' };
  if (first === 'judge' && joint === undefined) return { page: 'judge logs' };
  if (first === 'instruments' && joint === undefined) return { page: 'instruments' };
  if (first === 'past' && parts.length <= 2) {
    if (joint === undefined) return { page: 'past' };
    if (joint === 'counts') return { page: 'past counts' };
  }
  if (first === 'links' && joint === undefined) return { page: 'links' };
  if (first === 'people' && joint === undefined) return { page: 'people' };
  if (first === 'procedures' && parts.length <= 3) {
    if (joint === undefined) return { page: 'procedures' };
    if (joint === 'of' && last !== undefined) return { page: 'procedure', procedure: last };
    if (joint === 'new') return { page: 'new revision', ...(last === undefined ? {} : { procedure: last }) };
  }
  if (first === 'joint' && joint !== undefined && parts.length <= 3) {
    if (last === undefined) return { page: 'joint', joint };
    if (last === 'record') return { page: 'record', joint };
    if (last === 'requirement') return { page: 'requirement', joint };
    if (last === 'what-if') return { page: 'what if', joint };
    if (last === 'repair') return { page: 'repair joint', joint };
    if (last === 'correct') return { page: 'correct joint', joint };
  }
  return { page: 'unknown', address: hash };
};

export const overviewAddress = '#/';
export const newJointAddress = '#/new';
export const handOverAddress = '#/hand-over';
export const judgeAddress = '#/judge';
export const instrumentsAddress = '#/instruments';
export const pastAddress = '#/past';
export const pastCountsAddress = '#/past/counts';
export const peopleAddress = '#/people';
export const linksAddress = '#/links';
export const jointAddress = (joint: string): string => `#/joint/${encodeURIComponent(joint)}`;
export const recordAddress = (joint: string): string => `${jointAddress(joint)}/record`;
export const requirementAddress = (joint: string): string => `${jointAddress(joint)}/requirement`;
export const whatIfAddress = (joint: string): string => `${jointAddress(joint)}/what-if`;
export const proceduresAddress = '#/procedures';
export const newProcedureAddress = '#/procedures/new';
export const procedureAddress = (procedure: string): string => `#/procedures/of/${encodeURIComponent(procedure)}`;
export const revisionAddress = (procedure: string): string => `#/procedures/new/${encodeURIComponent(procedure)}`;
export const correctAddress = (joint: string): string => `${jointAddress(joint)}/correct`;

export const repairAddress = (joint: string): string => `${jointAddress(joint)}/repair`;

export const route = signal<Route>({ page: 'overview' });

export const startRoute = (): void => {
  const read = (): void => {
    route.value = readRoute(location.hash);
  };
  read();
  addEventListener('hashchange', () => {
    read();
    scrollTo(0, 0);
  });
};

export const goTo = (address: string): void => {
  location.hash = address;
};

function decode(part: string): string {
  try {
    return decodeURIComponent(part);
  } catch {
    return part;
  }
}
