// The head of the API's description: title, tags, servers, how a token is sent.
// It must not describe operations; each route does that itself.

export const apiInfo = {
  openapi: '3.1.0',
  info: {
    title: 'Lastgood',
    version: '1.0.0',
    summary: 'What feeds this load, what breaks if this plug is pulled, what should the meter read',
    description: [
      'Harness records with their revisions, and the questions that a builder asks of them.',
      '',
      'Units are SI and stand in the names of the fields. Every error is a problem document (RFC 9457) with a stable `code`.',
      'A change must say which revision it starts from (If-Match); nothing is ever stored in part.',
      '',
      'Lastgood describes circuits, it does not replace care: the maker’s procedure, local codes and licensed practice hold over',
      'anything it says.',
    ].join('\n'),
    license: { name: 'Apache-2.0', identifier: 'Apache-2.0' },
  },
  servers: [{ url: '/', description: 'This server' }],
  tags: [
    { name: 'Harnesses', description: 'Records, kept revision by revision' },
    { name: 'Revisions', description: 'History of a harness' },
    { name: 'Import and export', description: 'Sheets and documents in, the same out' },
    { name: 'Questions', description: 'What feeds, what breaks, what the meter should read' },
    { name: 'Hunts', description: 'From a symptom to the one bad point' },
    { name: 'Proving', description: 'Findings, test plans, their readings, sneak conduction' },
    { name: 'Look-ups', description: 'What can be asked about' },
    { name: 'Backup', description: 'Everything as one file' },
    { name: 'Health', description: 'For supervisors; open without a token' },
  ],
  components: {
    securitySchemes: {
      token: {
        type: 'http' as const,
        scheme: 'bearer',
        description: 'Asked for only when the server was started with a token',
      },
    },
  },
};
