#pragma once

#include <stop_token>

#include "sim/app/commands.hpp"
#include "sim/app/mpi/ranks.hpp"

namespace drumlin::app {

/// `drumlin sweep` by all ranks: rank 0 holds the folder, hands out chunks and computes with the
/// others. Every rank reads the study's file and finds the same study in it, or all end.
/// @param stop  of this rank; one is enough to end all, with what is done kept.
/// @throws Ended on every rank.
void sweep_on_ranks(const SweepCommand& command, const Ranks& ranks, std::stop_token stop);

}  // namespace drumlin::app
