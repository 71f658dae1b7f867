// Stands in for `@stdlib/assert-has-generator-support`, which finds out by eval: the page's policy forbids that and reports it.
// Every browser that runs the page has generators.
module.exports = () => true;
