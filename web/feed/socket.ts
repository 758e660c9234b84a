/**
 * The live line from the station. It only listens, and asks to follow joints; acts go by HTTP, so that
 * nothing typed waits unseen in a buffer. After a break it asks again from the last position it holds:
 * what was committed meanwhile comes first, so that the screen has no hole.
 */
import { io } from 'socket.io-client';
import type { LiveMessage, StationView } from '../../server/screen/contract.ts';

export interface Follow {
  readonly joint: string;
  /** The last position that the page holds. */
  position(): number;
  live(message: LiveMessage): void;
  /** The line is back after a break. */
  resumed(): void;
}

export interface LiveLine {
  /** Starts following; the answer ends it. */
  follow(follow: Follow): () => void;
}

export interface LineEvents {
  station(view: StationView): void;
  /** Any word of the station, with its clock. */
  heard(serverNow: number): void;
  connected(connected: boolean): void;
}

export const openLine = (events: LineEvents): LiveLine => {
  const socket = io({
    // The web socket at once, and requests only where it cannot be had: a line that the station cuts while it is
    // being changed from the one to the other is not missed by the page for three quarters of a minute.
    transports: ['websocket', 'polling'],
    tryAllTransports: true,
    reconnectionDelay: 300,
    reconnectionDelayMax: 2_000,
    randomizationFactor: 0.3,
    timeout: 5_000,
  });
  const follows = new Set<Follow>();
  let everConnected = false;

  const ask = (follow: Follow): void => {
    socket.emit('follow', { joint: follow.joint, after: follow.position() });
  };

  socket.on('connect', () => {
    events.connected(true);
    for (const follow of follows) {
      ask(follow);
      if (everConnected) follow.resumed();
    }
    everConnected = true;
  });
  socket.on('disconnect', () => events.connected(false));
  socket.on('station', (view: StationView) => {
    events.heard(view.now);
    events.station(view);
  });
  socket.on('live', (message: LiveMessage) => {
    events.heard(message.now);
    for (const follow of follows) if (follow.joint === message.joint) follow.live(message);
  });

  return {
    follow(follow) {
      follows.add(follow);
      // Not emitted while the line is down: it would wait in a buffer and be asked from an old position.
      if (socket.connected) ask(follow);
      return () => {
        follows.delete(follow);
        if (socket.connected) socket.emit('unfollow', { joint: follow.joint });
      };
    },
  };
};
