package artwork

// SlowAverage is for tests of whole plans.
var SlowAverage = slowAverage
