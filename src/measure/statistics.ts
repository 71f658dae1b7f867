// Mean, standard deviation and median are those of simple-statistics: compensated sums and a two-pass
// deviation, which on the NIST data sets NumAcc1 to 4 come as close as doubles can hold the data
// (tests/outside/univariate.test.ts). Code of our own was no better there, so there is none. They are
// passed on from here so that the rest of the house has one place to look for them.
export { mean, median, medianAbsoluteDeviation, sampleStandardDeviation } from 'simple-statistics';
