/** What a build file may say of the job that its papers belong to. */
import { day, MOST, name, strict, text } from './schemaPieces.ts';

export const job = strict({
  reference: name.exactOptional().describe('By what the customer knows the job: a name, an order number.'),
  date: day.exactOptional().describe('Day that stands on the papers. Left out: the day on which they are made.'),
  notes: text(MOST.note).exactOptional(),
});
