/** The hearing side of the emulated board: takes bytes of the host, does what a whole command says, replies. */
import { bounds } from '../codec/bounds.ts';
import { decode } from '../codec/decode.ts';
import type { BoardFrame, Frame, Hello, HostFrame, Reply, Sample } from '../codec/frame.ts';

export interface Outputs {
  readonly lamp: 'off' | 'on' | 'slow' | 'fast';
  readonly horn: 'off' | 'on';
  readonly permission: 'withheld' | 'given';
}

export const outputsAtStart: Outputs = { lamp: 'off', horn: 'off', permission: 'withheld' };

export interface Mouth {
  say(frame: BoardFrame): void;
  hello(): Hello;
  kept(): readonly Sample[];
  setPeriod(milliseconds: number): void;
}

export interface Listener {
  hear(bytes: string): void;
  /** Board time; without a heartbeat for long enough permission falls and the lamp shows fault. */
  advanceTo(ticks: number): void;
  outputs(): Outputs;
  restart(): void;
}

const heartbeatMilliseconds = 5_000;

export const createListener = (mouth: Mouth): Listener => {
  let half = '';
  let outputs = outputsAtStart;
  let ticks = 0;
  let heartbeatAt = 0;
  /** A host that has sent one heartbeat is expected to go on. */
  let watched = false;

  const beat = (): void => {
    heartbeatAt = ticks;
    watched = true;
  };

  const obey = (command: HostFrame): Reply['outcome'] => {
    switch (command.kind) {
      case 'ask hello':
        mouth.say(mouth.hello());
        return 'done';
      case 'period':
        mouth.setPeriod(command.periodMilliseconds);
        return 'done';
      case 'send again':
        return sendAgain(mouth, command.fromSequence);
      case 'heartbeat':
        beat();
        return 'done';
      case 'permission':
        beat();
        outputs = { ...outputs, permission: command.state };
        return 'done';
      case 'lamp':
        outputs = { ...outputs, lamp: command.state };
        return 'done';
      case 'horn':
        outputs = { ...outputs, horn: command.state };
        return 'done';
    }
  };

  const hearLine = (line: string): void => {
    if (line === '') return;
    const decoded = decode(line);
    if (decoded.ok) {
      if (isCommand(decoded.frame)) {
        const outcome = obey(decoded.frame);
        mouth.say({ kind: 'reply', command: decoded.frame.command, outcome });
      }
      return;
    }
    const number = decoded.rejection === 'unknown kind' ? /^\S+ command=(0|[1-9]\d{0,4}) /.exec(line)?.[1] : undefined;
    if (number !== undefined && Number(number) <= bounds.short.highest) {
      mouth.say({ kind: 'reply', command: Number(number), outcome: 'refused' });
    }
  };

  return {
    hear: (bytes) => {
      const lines = (half + bytes).split('\n');
      // One character more than a line may have is enough to know that it is too long.
      half = (lines.pop() ?? '').slice(0, bounds.lineLengthMaximum + 1);
      for (const line of lines) hearLine(line);
    },
    advanceTo: (now) => {
      ticks = now;
      if (!watched || ticks - heartbeatAt < heartbeatMilliseconds) return;
      watched = false;
      outputs = { ...outputs, permission: 'withheld', lamp: outputs.lamp === 'off' ? 'off' : 'fast' };
    },
    outputs: () => outputs,
    restart: () => {
      half = '';
      outputs = outputsAtStart;
      ticks = 0;
      heartbeatAt = 0;
      watched = false;
    },
  };
};

const sendAgain = (mouth: Mouth, from: number): Reply['outcome'] => {
  const kept = mouth.kept();
  for (const sample of kept) if (sample.sequence >= from) mouth.say({ ...sample, resent: true });
  const oldest = kept[0]?.sequence;
  return oldest === undefined || oldest > from ? 'not kept' : 'done';
};

const isCommand = (frame: Frame): frame is HostFrame =>
  frame.kind !== 'hello' && frame.kind !== 'sample' && frame.kind !== 'reply';
