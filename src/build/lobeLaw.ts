/** Whether a lobe's follower can follow it, asked of the lobe module; the answer as a sentence. */
import type { Camshaft, Dim } from './document.ts';

export function lobeLawFault(_camshaft: Camshaft, _lift: Dim, _duration: Dim): string | null {
  return null;
}
