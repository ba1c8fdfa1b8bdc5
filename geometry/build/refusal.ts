/** Thrown inside a reader where it meets what it cannot read; its door turns it into a result. */
export class Refusal extends Error {
  override name = 'Refusal';
  /** What would be right, where that is more than 'a value of the field's dimension'. */
  readonly wanted: string | null;

  constructor(reason: string, wanted: string | null = null) {
    super(reason);
    this.wanted = wanted;
  }
}
