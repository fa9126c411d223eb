#pragma once

#include <chrono>
#include <cstdint>
#include <exception>
#include <optional>
#include <vector>

#include "sim/app/mpi/computing.hpp"
#include "sim/app/mpi/ranks.hpp"
#include "sim/app/store_desk.hpp"

/// How ranks work on one study: who has the folder (rank 0) is asked for numbers of chunks and sent
/// the chunks, while threads beside compute.
namespace drumlin::app {

/// What a rank other than 0 does until rank 0 ends it: asks for numbers, sends chunks.
void talk_to_rank_0(const Ranks& ranks, Computing& computing);

/// What rank 0 does: answers the others and its own threads, and keeps what they did.
class Service {
 public:
  Service(const Ranks& ranks, Computing& computing, StoreDesk& desk);

  /// @throws what kept a chunk from being kept; all ranks have ended computing then, too.
  void run();

 private:
  using Clock = std::chrono::steady_clock;

  std::optional<std::uint64_t> next();
  void keep(DoneChunk chunk);
  void answer(Message& message);
  bool serve_own_threads();
  void ended(int rank, bool early);
  void stop_all();
  [[nodiscard]] bool do_others_answer() const;
  [[noreturn]] void leave_the_dead() const;

  const Ranks& ranks_;
  Computing& computing_;
  StoreDesk& desk_;
  std::vector<bool> at_work_;
  int running_;
  std::exception_ptr problem_;
  std::optional<Clock::time_point> stopped_since_;  ///< and nobody said anything since
};

}  // namespace drumlin::app
