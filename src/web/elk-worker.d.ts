// Says to the compiler that the address of elkjs' worker script comes from the builder.
// It must not describe elkjs itself.

declare module 'elkjs/lib/elk-worker.min.js?url' {
  const address: string;
  export default address;
}
