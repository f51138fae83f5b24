// The statistics library brings no types; tests use its distributions only.
declare module 'jstat'
