#pragma once

#include <exception>
#include <optional>
#include <stdexcept>
#include <string>

/// The processes of one mpirun. All calls of MPI are behind this header, and all are made by the
/// main thread (MPI_THREAD_FUNNELED). Machines with different number formats are not served.
namespace drumlin::app {

/// What a message between two ranks says.
enum class Tag : int { ask = 1, number, chunk, over, stop, end };

struct Message {
  int from = 0;
  Tag tag = Tag::ask;
  std::string bytes;
};

/// All ranks end, with the same exit code; what there is to say is for rank 0 to print.
class Ended : public std::runtime_error {
 public:
  Ended(int exit_code, const std::string& text) : std::runtime_error(text), exit_code_(exit_code) {}
  [[nodiscard]] int exit_code() const noexcept { return exit_code_; }

 private:
  int exit_code_;
};

class Ranks {
 public:
  /// Without mpirun there is one rank. @throws std::runtime_error if the library has no threads.
  Ranks();
  ~Ranks();
  Ranks(const Ranks&) = delete;
  Ranks& operator=(const Ranks&) = delete;
  Ranks(Ranks&&) = delete;
  Ranks& operator=(Ranks&&) = delete;

  [[nodiscard]] int rank() const noexcept { return rank_; }
  [[nodiscard]] int count() const noexcept { return count_; }

  /// Cores for each rank of this machine: those that its ranks may use, shared evenly; not more
  /// than this rank itself may use. At least 1. Every rank has to ask.
  [[nodiscard]] unsigned share_of_cores() const;

  /// Every rank says here whether it can go on; waits for all of them without burning a core.
  /// @throws Ended on every rank if one cannot, with the words and the exit code of the first.
  void agree(const std::exception_ptr& problem) const;

  /// Rank 0's text on every rank.
  [[nodiscard]] std::string of_rank_0(std::string text) const;

  void send(int to, Tag tag, const std::string& bytes = {}) const;
  /// A message that has come, if there is one.
  [[nodiscard]] std::optional<Message> received() const;

  /// Ends all ranks at once: one of them does not answer any more.
  [[noreturn]] void abandon(int exit_code) const;

 private:
  int rank_ = 0;
  int count_ = 1;
};

}  // namespace drumlin::app
