/**
 * A station that is not one: speaks the contract of server/screen with an invented workshop behind it, so that the
 * pages can be looked at and tested without boards, disk or record. Its clock is handed in.
 */
import { createHash } from 'node:crypto';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import express from 'express';
import { Server } from 'socket.io';
import { after, type Instant } from '../../server/measure/quantity.ts';
import { requirement } from '../../server/metallurgy/requirement.ts';
import type {
  HistoryView,
  JointState,
  JointsView,
  LiveMessage,
  Problem,
  StationView,
} from '../../server/screen/contract.ts';
import { namedActSchema } from '../../server/weld/entry.ts';
import { jointSchema } from '../../server/weld/joint.ts';
import { periodMilliseconds, type Run, type Script, startRun } from './station/run.ts';

export interface FakeStation {
  readonly address: string;
  /** Lets the workshop and its clock move on; sends what happened. */
  advance(milliseconds: number): void;
  /** Nothing is sent any more until it is ended: for the blind screen. */
  mute(muted: boolean): void;
  notRecording(because: string | undefined): void;
  stop(): Promise<void>;
}

export const startFakeStation = async (options: {
  readonly scripts: readonly { readonly script: Script; readonly minutes: number }[];
  readonly now: Instant;
  readonly port: number;
  readonly pages: string;
}): Promise<FakeStation> => {
  let now = options.now;
  let muted = false;
  let because: string | undefined;
  const runs = new Map<string, Run>();
  for (const { script, minutes } of options.scripts) {
    const run = startRun(script, after(now, -minutes * 60_000));
    run.advance(now);
    runs.set(script.joint.id, run);
  }

  const station = (): StationView => ({
    now,
    recording: because === undefined,
    ...(because === undefined ? {} : { notRecordingBecause: because }),
    demonstration: true,
    attention: [],
    links: [
      {
        port: 'pseudo-terminal',
        state: 'open',
        board: 'board-1',
        simulated: true,
        verified: false,
        linesGood: 5400,
        linesBad: 0,
      },
    ],
  });
  const state = (run: Run): JointState => ({
    joint: run.script.joint,
    assessment: run.judge.assess(),
    courses: run.judge.courses(run.judge.assess().at),
    position: run.position,
    periodMilliseconds,
    headHash: createHash('sha256').update(`${run.script.joint.id} ${run.entries.length}`).digest('hex'),
    entries: run.entries.length,
  });

  const app = express();
  const server = createServer(app);
  const io = new Server(server);
  app.use((_request, response, next) => (muted ? response.destroy() : next()));
  app.use(express.json({ limit: '1mb' }));
  app.get('/api/station', (_request, response) => void response.json(station()));
  app.get('/api/sign-on', (_request, response) => void response.json({ needed: false, byPin: [] }));
  app.get('/api/joints', (_request, response) => {
    const open = [...runs.values()].map((run) => ({
      id: run.script.joint.id,
      title: run.script.joint.title,
      assessment: run.judge.assess(),
    }));
    response.json({ open, closed: [] } satisfies JointsView);
  });
  app.post('/api/joints', (request, response) => {
    const parsed = jointSchema.safeParse((request.body as { joint?: unknown }).joint);
    if (!parsed.success) return void response.status(422).json({ problems: problems(parsed.error.issues) });
    if (runs.has(parsed.data.id))
      return void response
        .status(422)
        .json({ problems: [{ field: 'id', found: parsed.data.id, allowed: 'an id that no other joint has' }] });
    runs.set(parsed.data.id, startRun({ joint: parsed.data, source: 'simulated', heaterCelsius: 200, acts: [] }, now));
    return void response.status(201).json({ joint: parsed.data.id });
  });
  app.post('/api/requirement', (request, response) => {
    const parsed = jointSchema.safeParse((request.body as { joint?: unknown }).joint);
    if (!parsed.success) return void response.status(422).json({ problems: problems(parsed.error.issues) });
    return void response.json(requirement(parsed.data, []));
  });
  app.use('/api/joints/:id', (request, response, next) => {
    const run = runs.get(request.params.id);
    if (run === undefined) return void response.status(404).json({ because: 'no such joint' });
    response.locals.run = run;
    return next();
  });
  const runOf = (response: express.Response): Run => response.locals.run as Run;
  app.get('/api/joints/:id', (_request, response) => void response.json(state(runOf(response))));
  app.get('/api/joints/:id/timeline', (_request, response) => void response.json(runOf(response).entries));
  app.get('/api/joints/:id/alarms', (_request, response) => void response.json([]));
  app.get('/api/joints/:id/history', (request, response) => {
    const { from, to, points } = request.query;
    response.json(history(runOf(response), Number(from), Number(to), Number(points)));
  });
  app.post('/api/joints/:id/acts', (request, response) => {
    if (because !== undefined) return void response.status(503).json({ because });
    const parsed = namedActSchema.safeParse(request.body);
    if (!parsed.success) return void response.status(422).json({ problems: problems(parsed.error.issues) });
    const run = runOf(response);
    const position = run.act(parsed.data.who.name, parsed.data.act, now);
    send(run, []);
    return void response.status(201).json({ position });
  });
  app.post('/api/joints/:id/documents', express.raw({ type: () => true, limit: '15mb' }), (request, response) => {
    response.status(201).json({
      sha256: createHash('sha256')
        .update(request.body as Buffer)
        .digest('hex'),
    });
  });
  app.use(express.static(options.pages));

  const send = (run: Run, readings: LiveMessage['readings']): void => {
    const message: LiveMessage = {
      joint: run.script.joint.id,
      position: run.position,
      now,
      readings,
      assessment: run.judge.assess(),
    };
    if (!muted) io.to(run.script.joint.id).emit('live', message);
  };
  io.on('connection', (socket) => {
    socket.emit('station', station());
    socket.on('follow', ({ joint }: { joint: string }) => {
      void socket.join(joint);
      const run = runs.get(joint);
      if (run !== undefined) send(run, []);
    });
    socket.on('unfollow', ({ joint }: { joint: string }) => void socket.leave(joint));
  });

  await new Promise<void>((resolve) => server.listen(options.port, '127.0.0.1', resolve));
  return {
    address: `http://127.0.0.1:${(server.address() as AddressInfo).port}`,
    advance(milliseconds) {
      now = after(now, milliseconds);
      for (const run of runs.values()) {
        const made = run.advance(now);
        send(
          run,
          made.map(({ probe, reading }) => ({ probe, ...reading })),
        );
      }
      if (!muted) io.emit('station', station());
    },
    mute(value) {
      muted = value;
      if (muted) io.disconnectSockets(true);
    },
    notRecording(value) {
      because = value;
      io.emit('station', station());
    },
    async stop() {
      await io.close();
    },
  };
};

const problems = (issues: readonly { readonly path: readonly PropertyKey[]; readonly message: string }[]): Problem[] =>
  issues.map((issue) => ({ field: issue.path.join('.'), found: '', allowed: issue.message }));

type Step = HistoryView['series'][number]['steps'][number];

const history = (run: Run, from: number, to: number, points: number): HistoryView => {
  const step = Math.max(periodMilliseconds, Math.ceil((to - from) / points / 1000) * 1000);
  const series = [...run.readings].map(([probe, readings]) => {
    const steps: Step[] = [];
    let last = -1;
    for (const reading of readings) {
      if (reading.at < from || reading.at > to) continue;
      const at = Math.floor(reading.at / step) * step;
      const t = reading.temperature;
      const before = steps.at(-1);
      if (t === undefined) {
        if (before?.[1] !== null) steps.push([at, null]);
      } else if (last === at && before !== undefined && before[1] !== null) {
        steps[steps.length - 1] = [at, before[1], Math.min(before[2], t), Math.max(before[3], t), t];
      } else {
        if (last >= 0 && at - last > Math.max(step, 3 * periodMilliseconds) && before?.[1] !== null)
          steps.push([last + step, null]);
        steps.push([at, t, t, t, t]);
      }
      if (t !== undefined) last = at;
    }
    return { probe, steps };
  });
  return { from: from as Instant, to: to as Instant, stepMilliseconds: step, series };
};
