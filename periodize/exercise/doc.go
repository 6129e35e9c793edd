// Package exercise fills planned sessions with what an athlete does in them.
package exercise
