/** A question to one slave and what can come of it, whatever the line. */

export interface Question {
  readonly address: number;
  /** 3 reads holding registers, 4 input registers (Modbus application protocol). */
  readonly function: 3 | 4;
  /** As on the wire: the first register is 0. */
  readonly register: number;
  readonly count: number;
}

const busErrors = [
  'no answer',
  'broken answer',
  'another slave answered',
  'other answer',
  'exception',
  'line not quiet',
  'not sent',
] as const;
export type BusError = (typeof busErrors)[number];

export type Outcome =
  | { readonly ok: true; readonly words: readonly number[] }
  | { readonly ok: false; readonly error: BusError; readonly detail: string };

/** One line or connection on which one question is asked at a time. */
export interface Exchange {
  /** `done` is called once, unless it is closed before. Not while another question is open. */
  ask(question: Question, done: (outcome: Outcome) => void): void;
  close(): void;
}

export const failed = (error: BusError, detail: string): Outcome => ({ ok: false, error, detail });

/** Codes of the Modbus application protocol, section 7; what they mostly mean for whoever sets up a module. */
export const exceptionText = (code: number): string => {
  const known = exceptions[code];
  return known === undefined ? `exception ${code}, which the protocol does not name` : `exception ${code}: ${known}`;
};

const exceptions: Readonly<Record<number, string>> = {
  1: 'the slave knows no such question; try the other kind of registers, holding or input',
  2: 'the slave has no such register; compare with its manual the number of the register, from where it counts (firstRegister) and the kind of registers (input or holding), or leave gaps out',
  3: 'the slave does not give so many registers at once; leave gaps out',
  4: 'the slave says that it has failed',
  5: 'the slave needs longer',
  6: 'the slave is busy',
  8: 'the slave finds an error in its memory',
  10: 'the gateway cannot reach that line',
  11: 'the slave behind the gateway does not answer',
};
