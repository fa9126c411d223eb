#include "sim/app/mpi/service.hpp"

#include <iostream>
#include <utility>

#include <fmt/format.h>

#include "sim/app/exit_codes.hpp"
#include "sim/app/mpi/chunk_message.hpp"
#include "sim/numerics/error.hpp"

namespace drumlin::app {
namespace {

using namespace std::chrono_literals;

/// How long the talking thread sleeps where nothing happens: a chunk takes a hundred times longer.
constexpr auto moment = 500us;
/// After a stop, ranks that have not answered for so long are taken for dead. Shorter than the time
/// that a launcher leaves between its SIGTERM and its SIGKILL (Open MPI: 1 s).
constexpr auto patience = 700ms;

}  // namespace

/// What a rank other than 0 does in between: asks for numbers, sends chunks.
void talk_to_rank_0(const Ranks& ranks, Computing& computing) {
  Mailbox& mailbox = computing.mailbox();
  bool asked = false;
  bool told = false;
  for (bool ended = false; !ended;) {
    bool idle = true;
    while (const auto message = ranks.received()) {
      idle = false;
      if (message->tag == Tag::stop) computing.request_stop();
      if (message->tag == Tag::end) ended = true;
      if (message->tag != Tag::number) continue;
      asked = false;
      mailbox.give(number_in(message->bytes));
    }
    if (!asked && mailbox.wants()) {
      ranks.send(0, Tag::ask);
      asked = true;
    }
    if (const auto chunk = mailbox.collect()) {
      ranks.send(0, Tag::chunk, to_message(*chunk));
      idle = false;
    } else if (!told && !asked && mailbox.over()) {
      ranks.send(0, Tag::over, computing.ended_early() ? "early" : "");
      told = true;
    }
    if (idle && !ended) mailbox.wait(moment);
  }
}

Service::Service(const Ranks& ranks, Computing& computing, StoreDesk& desk)
    : ranks_(ranks),
      computing_(computing),
      desk_(desk),
      at_work_(static_cast<std::size_t>(ranks.count()), true),
      running_(ranks.count()) {}

void Service::run() {
  while (running_ > 0) {
    bool idle = true;
    if (auto message = ranks_.received()) {
      idle = false;
      answer(*message);
    }
    if (serve_own_threads()) idle = false;
    if (computing_.stop_requested()) stop_all();
    if (idle) computing_.mailbox().wait(moment);
    if (!do_others_answer()) leave_the_dead();
  }
  for (int rank = 1; rank < ranks_.count(); ++rank)
    ranks_.send(rank, Tag::end);
  if (problem_) std::rethrow_exception(problem_);
}

std::optional<std::uint64_t> Service::next() {
  return stopped_since_ ? std::nullopt : desk_.next();
}

void Service::keep(DoneChunk chunk) {
  if (problem_) return;
  problem_ = problem_of([&] { desk_.take(std::move(chunk)); });
  if (problem_) stop_all();
  if (stopped_since_) stopped_since_ = Clock::now();
}

void Service::answer(Message& message) {
  if (message.tag == Tag::ask) ranks_.send(message.from, Tag::number, to_message(next()));
  if (message.tag == Tag::chunk) keep(chunk_in(message.bytes));
  if (message.tag == Tag::over) ended(message.from, !message.bytes.empty());
}

/// Whether they had something to say.
bool Service::serve_own_threads() {
  Mailbox& mailbox = computing_.mailbox();
  if (mailbox.wants()) mailbox.give(next());
  auto chunk = mailbox.collect();
  if (chunk) keep(std::move(*chunk));
  if (!chunk && at_work_[0] && mailbox.over()) ended(0, computing_.ended_early());
  return chunk.has_value();
}

void Service::ended(int rank, bool early) {
  at_work_[static_cast<std::size_t>(rank)] = false;
  --running_;
  if (early) stop_all();
}

void Service::stop_all() {
  if (stopped_since_) return;
  stopped_since_ = Clock::now();
  computing_.request_stop();
  for (int rank = 1; rank < ranks_.count(); ++rank)
    if (at_work_[static_cast<std::size_t>(rank)]) ranks_.send(rank, Tag::stop);
}

/// Once stopped. Before, a rank may be silent for as long as its rows take.
bool Service::do_others_answer() const {
  const bool others_run = !at_work_[0] && running_ > 0;
  return !stopped_since_ || !others_run || Clock::now() - *stopped_since_ < patience;
}

void Service::leave_the_dead() const {
  const auto say = [&]() -> int {
    if (problem_) std::rethrow_exception(problem_);
    throw sim::Stopped(fmt::format(
        "stopped; {} of {} ranks do not answer; {}; the same command with --resume goes on",
        running_, ranks_.count(), desk_.kept_text()));
  };
  ranks_.abandon(guarded(say, std::cerr));
}

}  // namespace drumlin::app
