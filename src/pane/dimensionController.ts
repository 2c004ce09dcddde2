/**
 * The control of one dimension: a text field that keeps the literal as written, a handle to drag, and the reason when what
 * was typed can't be used.
 *
 * It reports through its value: `last` is false while a key repeats or the handle is dragged, true when the gesture is
 * over, so that one gesture is one step to undo. A text that can't be read is kept and never becomes the value.
 */
import type { Value, ValueController, View, ViewProps } from '@tweakpane/core';
import { kindOf, parseTyped, stepLiteral, unitOfLiteral } from '../build/literal.ts';
import { reasonText } from './dimAt.ts';
import { incrementOf, type StepSize, sizeByKeys, stepsOfKey, stepsOfTravel } from './increments.ts';

/** What stands round the literal; the pane takes it from the state. */
export interface Surroundings {
  /** The other unit, or empty. */
  readonly hint: string;
  /** "measured", "stated", "assumed", or where a value that the document leaves out comes from. */
  readonly origin: string;
  readonly assumed: boolean;
  /** Why the document can't be built with this value; null when it can. */
  readonly refusal: string | null;
  readonly notes: readonly string[];
}

interface Drag {
  readonly pointerId: number;
  /** Where the pointer was, CSS pixels, when `text` was the literal; moves when the size of a step changes. */
  anchorPx: number;
  text: string;
  size: StepSize;
}

/** Characters that the narrow field shows whole in a wide typeface. */
const LONGEST_BESIDE_LABEL = 11;

let serial = 0;

export class DimensionController implements ValueController<string, View> {
  readonly value: Value<string>;
  readonly viewProps: ViewProps;
  readonly view: View;
  readonly input: HTMLInputElement;
  /** The other unit and the provenance; the pane puts it under the label. */
  readonly meta: HTMLElement;
  /** Which bodies differ, and why a value is refused; the pane puts both under the whole row. */
  readonly notes: HTMLElement;
  readonly reason: HTMLElement;
  readonly #handle: HTMLElement;
  /** Literal of the right kind and unit for a bare number while the value is empty. */
  readonly #formerWhenEmpty: string;
  /** Emptying the field takes the dimension out. */
  readonly #mayBeEmpty: boolean;
  #fault: string | null = null;
  #refusal: string | null = null;
  /** The value before the gesture in progress; null between gestures. */
  #before: string | null = null;
  #drag: Drag | null = null;
  #writing = false;
  /** The text has been typed over and not yet taken. */
  #dirty = false;

  constructor(
    doc: Document,
    config: {
      readonly value: Value<string>;
      readonly viewProps: ViewProps;
      readonly formerWhenEmpty: string;
      readonly mayBeEmpty: boolean;
    },
  ) {
    this.value = config.value;
    this.viewProps = config.viewProps;
    this.#formerWhenEmpty = config.formerWhenEmpty;
    this.#mayBeEmpty = config.mayBeEmpty;
    serial += 1;
    const made = makeView(doc, `sw-dim-${serial}`);
    this.view = { element: made.element };
    this.input = made.input;
    this.meta = made.meta;
    this.#handle = made.handle;
    this.reason = made.reason;
    this.notes = made.notes;
    this.viewProps.bindClassModifiers(made.element);
    this.viewProps.bindDisabled(this.input);
    this.#showValue();

    this.value.emitter.on('change', () => this.#valueChanged());
    this.input.addEventListener('input', () => this.#typed());
    this.input.addEventListener('keydown', (event) => this.#keyDown(event));
    this.input.addEventListener('keyup', (event) => {
      if (stepsOfKey(event.key) !== 0) this.#endGesture();
    });
    this.input.addEventListener('blur', () => this.#commit());
    this.#handle.addEventListener('pointerdown', (event) => this.#dragStart(event));
    this.#handle.addEventListener('pointermove', (event) => this.#dragMove(event));
    this.#handle.addEventListener('pointerup', (event) => this.#dragEnd(event, 'keep'));
    this.#handle.addEventListener('pointercancel', (event) => this.#dragEnd(event, 'restore'));
    this.#handle.addEventListener('lostpointercapture', (event) => this.#dragEnd(event, 'keep'));
    this.viewProps.handleDispose(() => doc.removeEventListener('keydown', this.#escapeDrag, true));
  }

  /** A key or the handle is moving the value: what comes from the document has to wait. */
  get busy(): boolean {
    return this.#before !== null;
  }

  /** Sets what stands round the literal. */
  surround(by: Surroundings): void {
    this.meta.textContent = by.hint === '' ? by.origin : `${by.hint} · ${by.origin}`;
    this.view.element.classList.toggle('sw-dim-assumed', by.assumed);
    this.notes.textContent = by.notes.join('; ');
    this.#refusal = by.refusal;
    this.#showReason();
  }

  /** Drops what was typed and not taken, as when another assembly comes on show. */
  dropDraft(): void {
    this.#fault = null;
    this.#showValue();
    this.#showReason();
  }

  /** From the document; a text being typed in the focused field stays. */
  #valueChanged(): void {
    if (this.#writing) return;
    const focused = this.input.ownerDocument.activeElement === this.input;
    if (!focused || !this.#dirty) this.dropDraft();
    this.#dirty = false;
  }

  /** A literal too long for the field beside the label, as with a tolerance, gets the whole row: its unit must be seen. */
  #showValue(): void {
    this.input.value = this.value.rawValue;
    this.view.element.classList.toggle('sw-dim-long', this.value.rawValue.length > LONGEST_BESIDE_LABEL);
  }

  #typed(): void {
    this.#dirty = this.input.value !== this.value.rawValue;
    if (this.#fault !== null && this.#readTyped().ok) this.#fault = null;
    this.#showReason();
  }

  #keyDown(event: KeyboardEvent): void {
    if (event.isComposing) return;
    const steps = stepsOfKey(event.key);
    if (steps !== 0 && !event.ctrlKey && !event.metaKey) {
      event.preventDefault();
      this.#step(steps, sizeByKeys(event));
    } else if (event.key === 'Enter') {
      event.preventDefault();
      this.#commit();
    } else if (event.key === 'Escape' && this.#undoes()) {
      // The key is spent here: it must not also leave the page's present view.
      event.preventDefault();
      event.stopPropagation();
      this.#restore();
    }
  }

  /** Whether there is something that Escape would take back. */
  #undoes(): boolean {
    return this.#before !== null || this.#fault !== null || this.input.value !== this.value.rawValue;
  }

  #restore(): void {
    if (this.#before !== null) {
      this.#write(this.#before, false);
      this.#endGesture();
    }
    this.dropDraft();
  }

  /** Moves the value by whole steps, from what stands in the field. */
  #step(steps: number, size: StepSize): void {
    const read = this.input.value.trim() === '' ? ({ ok: true, text: this.#former() } as const) : this.#readTyped();
    if (!read.ok) {
      this.#refuse(read.offending, read.allowed);
      return;
    }
    this.#moveTo(read.text, steps, size);
  }

  /** Sets the value `steps` away from a literal; where that is more than a literal can hold, the value stays. */
  #moveTo(from: string, steps: number, size: StepSize): void {
    const text = steps === 0 ? from : stepLiteral(from, steps, incrementOf(unitOfLiteral(from), size));
    if (kindOf(text) === null) return;
    this.#before ??= this.value.rawValue;
    this.#write(text, false);
  }

  #endGesture(): void {
    if (this.#before === null) return;
    this.#before = null;
    this.#write(this.value.rawValue, true);
  }

  #commit(): void {
    if (this.#drag !== null) return;
    const typed = this.input.value;
    if (this.#mayBeEmpty && typed.trim() === '' && this.value.rawValue !== '') {
      this.#before = null;
      this.#write('', true);
      return;
    }
    const unchanged = typed === this.value.rawValue || (typed.trim() === '' && this.value.rawValue === '');
    const read = unchanged ? null : this.#readTyped();
    if (read !== null && !read.ok) {
      this.#endGestureKeepingText(typed);
      this.#refuse(read.offending, read.allowed);
    } else if (read !== null && read.text !== this.value.rawValue) {
      this.#before = null;
      this.#write(read.text, true);
    } else {
      this.#endGesture();
      this.dropDraft();
    }
  }

  #endGestureKeepingText(typed: string): void {
    this.#endGesture();
    this.input.value = typed;
  }

  /** The text stays in the field, the value as it was; the reason says both. */
  #refuse(offending: string, allowed: string): void {
    const kept = this.value.rawValue === '' ? '' : ` ${this.value.rawValue} is kept.`;
    this.#fault = reasonText(offending, allowed) + kept;
    this.#showReason();
  }

  #readTyped(): ReturnType<typeof parseTyped> {
    return parseTyped(this.input.value, this.#former());
  }

  #former(): string {
    return kindOf(this.value.rawValue) === null ? this.#formerWhenEmpty : this.value.rawValue;
  }

  #write(text: string, last: boolean): void {
    this.#fault = null;
    this.#dirty = false;
    this.#writing = true;
    this.value.setRawValue(text, { forceEmit: last, last });
    this.#writing = false;
    this.#showValue();
    this.#showReason();
  }

  #dragStart(event: PointerEvent): void {
    if (event.button !== 0 || !event.isPrimary || this.#drag !== null || this.viewProps.get('disabled')) return;
    event.preventDefault();
    this.#takeFocus(event.pointerType);
    const blank = this.input.value.trim() === '';
    const read = blank ? ({ ok: true, text: this.#former() } as const) : this.#readTyped();
    if (!read.ok) {
      this.#refuse(read.offending, read.allowed);
      return;
    }
    this.#handle.setPointerCapture(event.pointerId);
    this.#drag = { pointerId: event.pointerId, anchorPx: event.clientX, text: read.text, size: sizeByKeys(event) };
    this.view.element.classList.add('sw-dim-dragged');
    this.input.ownerDocument.addEventListener('keydown', this.#escapeDrag, true);
  }

  /** What is being typed elsewhere is taken before the drag; a finger doesn't call up the keyboard. */
  #takeFocus(pointerType: string): void {
    const focused = this.input.ownerDocument.activeElement;
    if (pointerType === 'mouse') this.input.focus();
    else if (focused instanceof HTMLElement && focused !== this.input) focused.blur();
  }

  #dragMove(event: PointerEvent): void {
    const drag = this.#drag;
    if (drag === null || event.pointerId !== drag.pointerId) return;
    const size = sizeByKeys(event);
    if (size !== drag.size) {
      drag.anchorPx = event.clientX;
      drag.text = this.#before === null ? drag.text : this.value.rawValue;
      drag.size = size;
    }
    const steps = stepsOfTravel(event.clientX - drag.anchorPx);
    if (steps !== 0 || this.#before !== null) this.#moveTo(drag.text, steps, size);
  }

  #dragEnd(event: PointerEvent, outcome: 'keep' | 'restore'): void {
    if (this.#drag === null || event.pointerId !== this.#drag.pointerId) return;
    this.#finishDrag(outcome);
  }

  #finishDrag(outcome: 'keep' | 'restore'): void {
    this.#drag = null;
    this.view.element.classList.remove('sw-dim-dragged');
    this.input.ownerDocument.removeEventListener('keydown', this.#escapeDrag, true);
    if (outcome === 'restore' && this.#before !== null) this.#write(this.#before, false);
    this.#endGesture();
  }

  readonly #escapeDrag = (event: KeyboardEvent): void => {
    if (event.key !== 'Escape') return;
    event.preventDefault();
    event.stopPropagation();
    this.#finishDrag('restore');
  };

  /** What was typed and can't be read stands before what can't be built. */
  #showReason(): void {
    const text = this.#fault ?? this.#refusal ?? '';
    if (this.reason.textContent !== text) this.reason.textContent = text;
    if (text === '') this.input.removeAttribute('aria-invalid');
    else this.input.setAttribute('aria-invalid', 'true');
  }
}

function makeView(doc: Document, id: string) {
  const element = made(doc, 'div', 'sw-dim');
  const box = made(doc, 'div', 'sw-dim_box');
  const input = doc.createElement('input');
  input.className = 'sw-dim_i';
  input.type = 'text';
  input.autocomplete = 'off';
  input.spellcheck = false;
  input.setAttribute('autocapitalize', 'off');
  input.setAttribute('enterkeyhint', 'done');
  const handle = made(doc, 'span', 'sw-dim_handle');
  handle.setAttribute('aria-hidden', 'true');
  handle.title = 'Drag to step';
  box.append(input, handle);
  const notes = made(doc, 'p', 'sw-dim_notes');
  notes.id = `${id}-notes`;
  const reason = made(doc, 'p', 'sw-dim_reason');
  reason.id = `${id}-reason`;
  reason.setAttribute('aria-live', 'polite');
  element.append(box);
  const meta = made(doc, 'span', 'sw-dim_meta');
  meta.id = `${id}-meta`;
  input.setAttribute('aria-describedby', `${meta.id} ${notes.id} ${reason.id}`);
  return { element, input, handle, notes, reason, meta };
}

function made(doc: Document, tag: 'div' | 'span' | 'p', className: string): HTMLElement {
  const element = doc.createElement(tag);
  element.className = className;
  return element;
}
