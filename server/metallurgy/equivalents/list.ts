/** The carbon equivalents that are shown. Adding one is a file beside this and a line here. */
import type { EquivalentDefinition } from '../equivalent.ts';
import { ce } from './ce.ts';
import { ceSi } from './ce-si.ts';
import { cen } from './cen.ts';
import { cet } from './cet.ts';
import { pcm } from './pcm.ts';
import { seferianCc } from './seferian-cc.ts';

export const equivalentDefinitions: readonly EquivalentDefinition[] = [ce, ceSi, cet, pcm, cen, seferianCc];
