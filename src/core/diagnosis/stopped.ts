/**
 * What is thrown when a hunt is asked to stop before it has worked out its answer. What was worked out until then is kept.
 * It must not know why it was stopped.
 */
export class HuntStopped extends Error {
  constructor() {
    super('the hunt was stopped before its answer was ready');
    this.name = 'HuntStopped';
  }
}
