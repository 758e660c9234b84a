/** Signs that say by shape what colour may say as well. They are always beside words, so they are silent. */

const strokes = {
  met: 'M5 13l5 5 9-11',
  unmet: 'M6 6l12 12M18 6L6 18',
  unjudged: 'M5 12h14',
  wait: 'M12 6v6l4 3M12 3a9 9 0 100 18 9 9 0 000-18z',
  arc: 'M13 3L6 13h5l-1 8 8-11h-5z',
  alarm: 'M12 4L2.5 20h19zM12 10v5M12 17.5v.5',
  'alarm-medium': 'M12 2.5l9.5 9.5-9.5 9.5-9.5-9.5zM12 7.5v5M12 15.5v.5',
  'alarm-low': 'M12 3a9 9 0 100 18 9 9 0 000-18zM12 7.5v5M12 16v.5',
  blind: 'M3 12s3.5-6 9-6 9 6 9 6-3.5 6-9 6-9-6-9-6zM4 20L20 4',
  closed: 'M6 11h12v9H6zM8.5 11V8a3.5 3.5 0 017 0v3',
  bell: 'M6 17h12l-1.5-2.5V10a4.5 4.5 0 00-9 0v4.5zM10 20h4',
  silent: 'M6 17h12l-1.5-2.5V10a4.5 4.5 0 00-9 0v4.5zM10 20h4M4 4l16 16',
  person: 'M12 12a4 4 0 100-8 4 4 0 000 8zM4.5 20.5a7.5 7.5 0 0115 0',
  note: 'M5 4h14v16H5zM8 9h8M8 13h8M8 17h5',
  up: 'M6 18L18 6M9 6h9v9',
  down: 'M6 6l12 12M9 18h9V9',
  level: 'M4 12h15M14 7l5 5-5 5',
  link: 'M10 14a4 4 0 005.7 0l3-3A4 4 0 0013 5.3l-1 1M14 10a4 4 0 00-5.7 0l-3 3a4 4 0 005.7 5.7l1-1',
} as const;

export type GlyphName = keyof typeof strokes;

export function Glyph({ name, size = 24 }: { readonly name: GlyphName; readonly size?: number }) {
  return (
    <svg class="glyph" width={size} height={size} viewBox="0 0 24 24" aria-hidden="true">
      <path
        d={strokes[name]}
        fill="none"
        stroke="currentColor"
        stroke-width="2.4"
        stroke-linecap="round"
        stroke-linejoin="round"
      />
    </svg>
  );
}
