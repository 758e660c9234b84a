/** How wide the pictures of one part are drawn: beside each other where there is room for both. */
import { useSignal } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';

export const useWidth = () => {
  const box = useRef<HTMLDivElement>(null);
  const width = useSignal({ beside: false, profile: 420, map: 420 });
  useEffect(() => {
    const watch = new ResizeObserver(([entry]) => {
      const all = Math.floor(entry?.contentRect.width ?? 0);
      if (all <= 0) return;
      const beside = all >= besideFrom;
      width.value = {
        beside,
        profile: Math.max(280, beside ? Math.floor((all - pictureGap) * 0.45) : all),
        map: Math.max(280, beside ? all - pictureGap - Math.floor((all - pictureGap) * 0.45) : all),
      };
    });
    if (box.current !== null) watch.observe(box.current);
    return () => watch.disconnect();
  }, []);
  return [box, width.value] as const;
};

const besideFrom = 760;
const pictureGap = 20;
