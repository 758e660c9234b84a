/**
 * What is heard for what: each sound differs from the others by pitch, number of pulses and pace, so that two of them
 * are told apart without looking. Pitches lie where a noisy shop and a tired ear still pass them; all are this
 * project's own choice.
 */
export type Sound = 'high' | 'medium' | 'low' | 'blind' | 'call';

export interface Tone {
  readonly hertz: readonly number[];
  readonly pulseMilliseconds: number;
  readonly gapMilliseconds: number;
  /** Said again after so long while it lasts; once where absent. */
  readonly everyMilliseconds?: number;
  /** No more often than this, where nobody can acknowledge it. */
  readonly timesAtMost?: number;
}

export const tones: Readonly<Record<Sound, Tone>> = {
  high: { hertz: [988, 988, 988], pulseMilliseconds: 180, gapMilliseconds: 120, everyMilliseconds: 3_000 },
  medium: { hertz: [740, 740], pulseMilliseconds: 220, gapMilliseconds: 180, everyMilliseconds: 10_000 },
  low: { hertz: [494], pulseMilliseconds: 350, gapMilliseconds: 0, everyMilliseconds: 30_000 },
  // Falling, as nothing else: the screen itself is not to be relied on. Three times, since nothing silences it but its end.
  blind: {
    hertz: [659, 494, 370],
    pulseMilliseconds: 300,
    gapMilliseconds: 30,
    everyMilliseconds: 10_000,
    timesAtMost: 3,
  },
  // Rising: somebody asked to be told, and nothing is wrong.
  call: { hertz: [523, 659, 784], pulseMilliseconds: 160, gapMilliseconds: 40 },
};

/** What sounded last, and how often in a row. */
export interface Sounded {
  readonly sound: Sound;
  readonly at: number;
  readonly times: number;
}

/** Whether `wanted` is to sound now; times on a clock that does not step, milliseconds. */
export const isDue = (wanted: Sound, last: Sounded | undefined, now: number): boolean => {
  if (last === undefined || last.sound !== wanted) return true;
  const { everyMilliseconds, timesAtMost } = tones[wanted];
  if (everyMilliseconds === undefined || now - last.at < everyMilliseconds) return false;
  return timesAtMost === undefined || last.times < timesAtMost;
};

/** Plays it once. */
export const play = (context: BaseAudioContext, sound: Sound): void => {
  const { hertz, pulseMilliseconds, gapMilliseconds } = tones[sound];
  const seconds = pulseMilliseconds / 1000;
  for (const [index, pitch] of hertz.entries()) {
    const from = context.currentTime + (index * (pulseMilliseconds + gapMilliseconds)) / 1000;
    const pulse = new OscillatorNode(context, { type: 'triangle', frequency: pitch });
    const loudness = new GainNode(context, { gain: 0 });
    // Soft edges: a hard one clicks.
    loudness.gain.setValueAtTime(0, from);
    loudness.gain.linearRampToValueAtTime(0.6, from + 0.01);
    loudness.gain.setValueAtTime(0.6, from + seconds - 0.02);
    loudness.gain.linearRampToValueAtTime(0, from + seconds);
    pulse.connect(loudness).connect(context.destination);
    pulse.start(from);
    pulse.stop(from + seconds);
  }
};
