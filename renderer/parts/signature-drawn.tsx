import type { ReactNode } from 'react';
import './signature-drawn.css';

/** A kept signature: its strokes in the box of 600 by 200 they were drawn in. */
export function SignatureDrawn({ path, name }: { readonly path: string; readonly name: string }): ReactNode {
  return <svg className="signature" role="img" aria-label={name} viewBox="0 0 600 200"><path d={path} /></svg>;
}
