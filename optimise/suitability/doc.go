// Package suitability judges which quote may fill which layer of which bed, and
// keeps every refusal with its rule, its reason in words and the two numbers
// compared. [New] judges a whole job.
package suitability
