import { useRef, type PointerEvent, type ReactNode } from 'react';
import { SIGNATURE_HEIGHT, SIGNATURE_WIDTH } from '../../../app/packs/stock-signature.ts';
import { PressButton } from '../../parts/button.tsx';
import { words } from '../../words/words.ts';

const text = words.handOver;

interface PadProps {
  readonly path: string;
  onPath(path: string): void;
}

/** A box to sign in with a finger, a pen or a mouse; what is drawn is kept as a path of straight strokes. */
export function SignaturePad({ path, onPath }: PadProps): ReactNode {
  const drawn = useRef(path);
  const isDown = useRef(false);
  const put = (event: PointerEvent<SVGSVGElement>, what: 'M' | 'L'): void => {
    const box = event.currentTarget.getBoundingClientRect();
    const x = ((event.clientX - box.left) / box.width) * SIGNATURE_WIDTH;
    const y = ((event.clientY - box.top) / box.height) * SIGNATURE_HEIGHT;
    drawn.current = `${drawn.current} ${what}${x.toFixed(1)},${y.toFixed(1)}`.trim();
    onPath(drawn.current);
  };
  return (
    <div className="stack">
      <svg
        className="signature-pad"
        viewBox={`0 0 ${SIGNATURE_WIDTH} ${SIGNATURE_HEIGHT}`}
        role="img"
        aria-label={text.signHere}
        onPointerDown={(event) => {
          if (path === '') drawn.current = '';
          isDown.current = true;
          event.currentTarget.setPointerCapture(event.pointerId);
          put(event, 'M');
        }}
        onPointerMove={(event) => {
          if (isDown.current) put(event, 'L');
        }}
        onPointerUp={() => {
          isDown.current = false;
        }}
        onPointerCancel={() => {
          isDown.current = false;
        }}
      >
        <path d={path === '' ? 'M0,0' : path} />
      </svg>
      <div className="row">
        <span className="soft">{text.signHere}</span>
        <PressButton
          look="quiet"
          isDisabled={path === ''}
          onPress={() => {
            drawn.current = '';
            onPath('');
          }}
        >
          {text.clear}
        </PressButton>
      </div>
    </div>
  );
}
