/** People enter what they did; in an emulated workshop that is what is done to the steel. */
import type { Board } from '../../firmware-protocol/emulator/board.ts';
import type { Pipeline } from '../pipeline.ts';
import type { Joint } from '../weld/joint.ts';

/** Heaters at the joint's set point while heat is entered as on, an arc while a pass runs. */
export function followActs(pipeline: Pick<Pipeline, 'onStep'>, joint: Joint, board: Board): void {
  const setPointCelsius = setPointOf(joint);
  const running = new Set<string>();
  pipeline.onStep((step) => {
    if (step.joint !== joint.id) return;
    for (const item of step.items) {
      if (item.type !== 'entry' || item.class !== 'input') continue;
      const body = item.body as { state?: string; pass?: string };
      if (item.kind === 'heat') board.heater({ on: body.state === 'on', setPointCelsius });
      if (item.kind === 'pass start') running.add(body.pass ?? '');
      if (item.kind === 'pass end') running.delete(body.pass ?? '');
      if (item.kind === 'close') running.clear();
      board.arc(running.size > 0);
    }
  });
}

/** Where the controller of the heaters is set, as the joint says. */
export function setPointOf({ id, heating }: Joint): number {
  if (heating.setPointCelsius === undefined) throw new Error(`the joint ${id} does not say its set point`);
  return heating.setPointCelsius;
}
