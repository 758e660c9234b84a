/** A connection on trial: it is opened and read as it would be for good, shown, and goes nowhere. One at a time. */
import type { Clock } from '../measure/clock.ts';
import { limits } from '../measure/limits.ts';
import { milliseconds } from '../measure/quantity.ts';
import { junctionAt, junctionOfVoltage } from '../reading/junction.ts';
import type { TrialView } from '../screen/connections-view.ts';
import { type Connected, type Connection, connectedBy } from '../weld/connection/connection.ts';
import type { ToldValue } from '../weld/told.ts';
import { type ConnectionLink, type Outside, openConnection } from '../wire/connection/open-connection.ts';
import type { WireEvent } from '../wire/event.ts';

export interface Trials {
  /** Ends the one before. */
  begin(connection: Connection): Promise<string>;
  /** Undefined once it has ended; looking at it keeps it. */
  view(id: string): TrialView | undefined;
  /** What is on trial now. */
  open(): readonly Connection[];
  end(): Promise<void>;
}

export interface TrialOptions {
  readonly clock: Clock;
  readonly platform: string;
  readonly outside: Outside;
  /** A name that nobody can guess. */
  readonly newId: () => string;
}

interface Trial {
  readonly id: string;
  readonly link: ConnectionLink;
  readonly instruments: readonly Connected[];
  readonly states: Map<string, WireEvent & { type: 'link' }>;
  readonly told: Map<string, Map<number, { readonly value: ToldValue; readonly at: number }>>;
  lookedAt: number;
}

export const createTrials = ({ clock, platform, outside, newId }: TrialOptions): Trials => {
  let trial: Trial | undefined;
  let cancel = (): void => {};

  const end = async (): Promise<void> => {
    cancel();
    const ended = trial;
    trial = undefined;
    await ended?.link.close();
  };

  /** A page that was closed lets the port go. */
  const watch = (): void => {
    cancel = clock.after(milliseconds(limits.trialUnseenMilliseconds), () => {
      if (trial !== undefined && clock.monotonic() - trial.lookedAt >= limits.trialUnseenMilliseconds) void end();
      else watch();
    });
  };

  return {
    end,
    open: () => (trial === undefined ? [] : [trial.link.connection]),
    async begin(connection) {
      await end();
      const states: Trial['states'] = new Map();
      const told: Trial['told'] = new Map();
      const onEvent = (event: WireEvent): void => {
        if (event.type === 'link') states.set(event.port, event);
        if (event.type !== 'told') return;
        const channels = told.get(event.board) ?? new Map();
        for (const value of event.told.values) channels.set(value.channel, { value, at: clock.monotonic() });
        told.set(event.board, channels);
      };
      const link = openConnection({ connection, outside, clock, platform, onEvent });
      const instruments = connectedBy(connection);
      trial = { id: newId(), link, instruments, states, told, lookedAt: clock.monotonic() };
      watch();
      return trial.id;
    },
    view(id) {
      if (trial?.id !== id) return undefined;
      trial.lookedAt = clock.monotonic();
      return viewOf(trial, clock.monotonic());
    },
  };
};

const viewOf = ({ instruments, states, told, link }: Trial, now: number): TrialView => ({
  instruments: instruments.map((instrument) => {
    const { board, port } = instrument;
    const state = states.get(port);
    return {
      board,
      state: state?.state ?? 'opening',
      cause: state?.cause ?? '',
      ...(state?.advice === undefined ? {} : { advice: state.advice }),
      ...link.counts(board),
      channels: instrument.channels.map((channel) => {
        const newest = told.get(board)?.get(channel.channel);
        const { thermocouple } = channel;
        return {
          channel: channel.channel,
          thermocouple,
          ...(newest === undefined
            ? {}
            : {
                reading: {
                  ...read(newest.value, thermocouple),
                  said: newest.value.said,
                  agoMilliseconds: Math.round(now - newest.at),
                },
              }),
        };
      }),
    };
  }),
});

const read = (value: ToldValue, type: Connected['channels'][number]['thermocouple']) =>
  'fault' in value
    ? { quality: value.fault }
    : 'reported' in value
      ? junctionAt(type, value.reported / 1000)
      : junctionOfVoltage(type, value.deciMicrovolts, value.coldJunction);
