/**
 * A page that hangs must not stand there calm. This cover is laid over it by an animation that the browser's drawing
 * runs by itself, without the page's program; each pulse of the program winds it back before it shows. Its seconds
 * are drawn the same way, so that a page that stands still shows how old it is.
 */
import { useEffect, useRef } from 'preact/hooks';

const pulseMilliseconds = 500;
const digits = ['0', '1', '2', '3', '4', '5', '6', '7', '8', '9'].join('\n');

export function StandingStill() {
  const cover = useRef<HTMLDivElement>(null);
  useEffect(() => {
    const wind = (): void => {
      for (const animation of cover.current?.getAnimations({ subtree: true }) ?? []) animation.currentTime = 0;
    };
    const pulse = setInterval(wind, pulseMilliseconds);
    document.addEventListener('visibilitychange', wind);
    return () => {
      clearInterval(pulse);
      document.removeEventListener('visibilitychange', wind);
    };
  }, []);
  // Nobody could read it out either: what reads a page aloud asks the program that hangs.
  return (
    <div class="still" aria-hidden="true" ref={cover}>
      <p>
        This page stands still. It is{' '}
        <span>
          {[1000, 100, 10].map((seconds) => (
            <span class="still-digit" key={seconds}>
              <span style={`animation-duration: ${seconds}s`}>{digits}</span>
            </span>
          ))}
        </span>{' '}
        s old: do not rely on it. Load it again.
      </p>
    </div>
  );
}
