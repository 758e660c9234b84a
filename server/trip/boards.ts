/**
 * What is known of each board and port, and what that says of the source of a joint's temperatures. Doubt is
 * the rule: only a port with a hardware identity makes a reading "measured", and one simulated board makes
 * the whole joint simulated.
 */
import type { Hello } from '../../firmware-protocol/codec/frame.ts';
import type { Connection } from '../weld/connection/connection.ts';
import { givenText } from '../weld/connection/given.ts';
import type { Source } from '../weld/entry.ts';
import type { Joint } from '../weld/joint.ts';

export interface PortIdentity {
  readonly verified: boolean;
  readonly detail: string;
}

export interface Board {
  readonly hello: Hello;
  readonly port: string;
  /** Where it is an instrument that was connected. */
  readonly connection?: Connection;
}

export interface Boards {
  readonly byId: Map<string, Board>;
  readonly identities: Map<string, PortIdentity>;
}

export const createBoards = (): Boards => ({ byId: new Map(), identities: new Map() });

export const boardsOf = (joint: Joint): Set<string> => new Set(joint.probes.map((probe) => probe.board));

/** The source of a joint as the boards that are heard say it; undefined while none of its boards is heard. */
export function sourceOf(boards: Boards, joint: Joint): Source | undefined {
  const heard = [...boardsOf(joint)].map((id) => boards.byId.get(id)).filter((each) => each !== undefined);
  if (heard.length === 0) return undefined;
  const simulated = heard.filter((each) => each.hello.simulated).map((each) => each.hello.board);
  if (simulated.length > 0) {
    return { kind: 'simulated', detail: `${simulated.join(', ')} is software that plays a board` };
  }
  const doubtful = heard.find((each) => boards.identities.get(each.port)?.verified !== true);
  if (doubtful !== undefined) {
    const detail = boards.identities.get(doubtful.port)?.detail ?? 'the port has no hardware identity';
    return { kind: 'not verified', detail: `${named(doubtful)}: ${detail}` };
  }
  return { kind: 'measured', detail: heard.map(named).join(', ') };
}

const named = ({ hello, connection }: Board): string =>
  connection === undefined ? hello.board : `${hello.board} (${givenText(connection, hello.board)})`;
