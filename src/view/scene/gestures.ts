/**
 * Hands on the section: wheel and pinch zoom at the pointer, a drag on the ground moves the drawing, a drag on the
 * crank turns it, a double tap or `0` shows it whole. What is dragged can be had without dragging: a tap brings a place of an enlarged
 * drawing to the middle, arrow keys with Ctrl move it. Reports what the hand means; changes nothing itself.
 */

export interface Hands {
  /** Px of the page for one of the drawing; all places told are the drawing's. */
  readonly scale: () => number;
  /** Whether a place on the screen lies on the crank. */
  readonly onCrank: (x: number, y: number) => boolean;
  /** Angle of a place about the crank axis, radians, clockwise on the screen. */
  readonly angleAt: (x: number, y: number) => number;
  /** Turned by hand, clockwise on the screen. */
  readonly turnBy: (screenRad: number) => void;
  /** Stepped by a key, in the direction of rotation. */
  readonly stepBy: (crankRad: number) => void;
  readonly pan: (dx: number, dy: number) => void;
  readonly zoom: (factor: number, x: number, y: number) => void;
  /** Tapped: this place is wanted in the middle. */
  readonly centre: (x: number, y: number) => void;
  /** The hand is off: time to draw afresh at the new scale. */
  readonly settle: () => void;
  readonly showWhole: () => void;
}

const WHEEL_SETTLE_MS = 160;
const DOUBLE_TAP_MS = 350;
const DOUBLE_TAP_PX = 24;
const TAP_PX = 6;
const ZOOM_STEP = 1.25;
/** Moved by a key, px. */
const PAN_STEP_PX = 60;
const PANS: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [PAN_STEP_PX, 0],
  ArrowRight: [-PAN_STEP_PX, 0],
  ArrowUp: [0, PAN_STEP_PX],
  ArrowDown: [0, -PAN_STEP_PX],
};
const DEG = Math.PI / 180;

export function listenToHands(canvas: HTMLCanvasElement, hands: Hands): () => void {
  const pointers = new Map<number, { x: number; y: number }>();
  let turning: number | null = null;
  let lastAngle = 0;
  let moved = 0;
  let lastTap = { at: -Infinity, x: 0, y: 0 };
  let wheelTimer: ReturnType<typeof setTimeout> | undefined;
  const place = (event: MouseEvent) => {
    const box = canvas.getBoundingClientRect();
    const scale = hands.scale();
    return { x: (event.clientX - box.left) / scale, y: (event.clientY - box.top) / scale };
  };

  const down = (event: PointerEvent) => {
    if (event.button !== 0) return;
    const at = place(event);
    canvas.setPointerCapture(event.pointerId);
    pointers.set(event.pointerId, at);
    moved = 0;
    if (pointers.size === 1 && hands.onCrank(at.x, at.y)) {
      turning = event.pointerId;
      lastAngle = hands.angleAt(at.x, at.y);
    } else turning = null;
  };
  const move = (event: PointerEvent) => {
    const at = place(event);
    const before = pointers.get(event.pointerId);
    if (before === undefined) {
      canvas.style.cursor = hands.onCrank(at.x, at.y) ? 'grab' : 'move';
      return;
    }
    moved += Math.hypot(at.x - before.x, at.y - before.y);
    if (turning === event.pointerId) {
      const angle = hands.angleAt(at.x, at.y);
      const by = Math.atan2(Math.sin(angle - lastAngle), Math.cos(angle - lastAngle));
      lastAngle = angle;
      if (by !== 0) hands.turnBy(by);
    } else if (pointers.size === 1) {
      hands.pan(at.x - before.x, at.y - before.y);
    } else {
      const other = [...pointers].find(([id]) => id !== event.pointerId)![1];
      const wide = Math.max(Math.hypot(before.x - other.x, before.y - other.y), 1);
      const wider = Math.max(Math.hypot(at.x - other.x, at.y - other.y), 1);
      hands.pan((at.x - before.x) / 2, (at.y - before.y) / 2);
      hands.zoom(wider / wide, (at.x + other.x) / 2, (at.y + other.y) / 2);
    }
    pointers.set(event.pointerId, at);
  };
  const up = (event: PointerEvent) => {
    if (!pointers.delete(event.pointerId)) return;
    if (turning === event.pointerId) turning = null;
    if (pointers.size > 0) return;
    const at = place(event);
    if (event.type === 'pointerup' && moved < TAP_PX) {
      const soon = event.timeStamp - lastTap.at < DOUBLE_TAP_MS;
      if (soon && Math.hypot(at.x - lastTap.x, at.y - lastTap.y) < DOUBLE_TAP_PX) {
        lastTap = { at: -Infinity, x: 0, y: 0 };
        hands.showWhole();
        return;
      }
      lastTap = { at: event.timeStamp, ...at };
      hands.centre(at.x, at.y);
    }
    hands.settle();
  };
  const wheel = (event: WheelEvent) => {
    event.preventDefault();
    const lines = event.deltaMode === WheelEvent.DOM_DELTA_LINE ? 33 : 1;
    const at = place(event);
    hands.zoom(Math.exp(-Math.min(Math.max(event.deltaY * lines, -240), 240) * 0.0016), at.x, at.y);
    clearTimeout(wheelTimer);
    wheelTimer = setTimeout(hands.settle, WHEEL_SETTLE_MS);
  };
  const key = (event: KeyboardEvent) => {
    const twice = 2 * hands.scale();
    const middle = { x: canvas.clientWidth / twice, y: canvas.clientHeight / twice };
    const step = event.shiftKey ? 10 * DEG : DEG;
    const pan = event.ctrlKey || event.metaKey ? PANS[event.key] : undefined;
    if (pan !== undefined) {
      hands.pan(...pan);
      hands.settle();
    } else if (event.key === '0') hands.showWhole();
    else if (event.key === '+' || event.key === '=') {
      hands.zoom(ZOOM_STEP, middle.x, middle.y);
      hands.settle();
    } else if (event.key === '-') {
      hands.zoom(1 / ZOOM_STEP, middle.x, middle.y);
      hands.settle();
    } else if (event.key === 'ArrowRight') hands.stepBy(step);
    else if (event.key === 'ArrowLeft') hands.stepBy(-step);
    else return;
    event.preventDefault();
  };

  canvas.addEventListener('pointerdown', down);
  canvas.addEventListener('pointermove', move);
  canvas.addEventListener('pointerup', up);
  canvas.addEventListener('pointercancel', up);
  canvas.addEventListener('wheel', wheel, { passive: false });
  canvas.addEventListener('keydown', key);
  return () => {
    clearTimeout(wheelTimer);
    canvas.removeEventListener('pointerdown', down);
    canvas.removeEventListener('pointermove', move);
    canvas.removeEventListener('pointerup', up);
    canvas.removeEventListener('pointercancel', up);
    canvas.removeEventListener('wheel', wheel);
    canvas.removeEventListener('keydown', key);
  };
}
