/** Legs crossed at the terminals: the reading falls below the terminals by as much as the others rise above them. */
import { block, minute, minutesOf } from '../history.ts';
import { numbers } from '../numbers.ts';
import type { Sighting } from '../sign.ts';
import { companyOf, type Detector, middle, reading, type View, type Watched } from '../view.ts';

export const polarity: Detector = (view) =>
  view.watched.filter(({ onPart }) => onPart).flatMap((watched) => reversedOf(view, watched));

function reversedOf(view: View, watched: Watched): Sighting[] {
  const now = reading(watched);
  const terminals = block(watched.history, 0, 'terminals');
  const first = minute(watched.history, minutesOf(watched.history) - 1)?.mean ?? Number.NaN;
  // Without terminals: what it read first, if the others began there too.
  const base = Number.isNaN(terminals) ? first : terminals;
  const least = Number.isNaN(terminals) ? numbers.deadOthersWarmer : numbers.reversedBelow;
  const below = base - now;
  if (!(below >= least)) return [];
  const company = companyOf(view, watched);
  const firsts = middle(company.map((each) => minute(each.history, minutesOf(each.history) - 1)?.mean ?? Number.NaN));
  const isFromCold = Math.abs(firsts - first) <= numbers.reversedBelow && first <= numbers.coldAtMost;
  if (Number.isNaN(terminals) && !isFromCold) return [];
  const others = middle(company.map(reading));
  const above = others - base;
  if (!(above >= numbers.deadOthersWarmer)) return [];
  const share = below / above;
  if (share < numbers.reversedShare) return [];
  return [
    {
      kind: 'reversed-terminal',
      probe: watched.probe,
      sure: share >= 2 * numbers.reversedShare ? 'clear' : 'likely',
      seen: {
        reading: Math.round(now),
        others: Math.round(others),
        ...(Number.isNaN(terminals) ? {} : { terminals: Math.round(terminals) }),
      },
    },
  ];
}
